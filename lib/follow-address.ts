/** Where a second laptop may send the key that opens the whole log. */
import { isThisMachine } from './host-name.ts';
import { accept, type Result, refuse } from './result.ts';

const USE_THE_OTHER = 'Use the address that begins with https: the first laptop shows it at Office, Network.';

/** The address to ask. Plain http is for this machine alone: on a network anybody could read the key on its way. */
export function decideFollowAddress(address: string): Result<URL> {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url === null || (url.protocol !== 'https:' && url.protocol !== 'http:')) {
    return refuse('malformed', `${address} is not the address of a first laptop. ${USE_THE_OTHER}`);
  }
  if (url.protocol === 'https:' || isThisMachine(url.hostname)) return accept(url);
  return refuse(
    'open_line',
    `${address} is not encrypted: anybody on the network could read the key. ${USE_THE_OTHER}`,
  );
}

/** For an answer that leads elsewhere: the key goes to the address that was typed, and to no other. */
export function ledElsewhere(): Result<never> {
  return refuse('wrong_address', `The first laptop sends us to another address. ${USE_THE_OTHER}`);
}

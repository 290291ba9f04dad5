/** Names and addresses under which a browser reaches a machine, as they stand in the `Host` of a request. */
import { accept, type Result, refuse } from '#lib/result/result.ts';

const LONGEST = 253;
/** RFC 1123, 2.1: letters, digits and hyphens, in labels of 63 characters at most. */
const NAME = /^(?!-)[a-z0-9-]{1,63}(?<!-)(\.(?!-)[a-z0-9-]{1,63}(?<!-))*$/;
const FOUR = /^\d{1,3}(\.\d{1,3}){3}$/;
const SIX = /^\[[0-9a-f:.]{2,45}\]$/;

/** A host's name, an IPv4 address, or an IPv6 address in brackets, in lower case and without a port. */
export function parseHostName(typed: string): Result<string> {
  const name = typed.trim().toLowerCase();
  if (name === '') return refuse('missing', 'Enter a name or an address.');
  if (FOUR.test(name)) return name.split('.').every((part) => Number.parseInt(part, 10) <= 255) ? accept(name) : odd();
  if (SIX.test(name)) return accept(name);
  return name.length <= LONGEST && NAME.test(name) ? accept(name) : odd();
}

/** The host of a `Host` header, which may carry a port; undefined where it is none. */
export function hostOf(header: string | null | undefined): string | undefined {
  const name = (header ?? '').replace(/:\d{1,5}$/, '');
  const parsed = parseHostName(name);
  return parsed.ok ? parsed.value : undefined;
}

/** Names that lead to the machine on which the browser itself runs, and to no other. */
export function isThisMachine(host: string): boolean {
  return host === 'localhost' || host === '[::1]' || /^127(\.\d{1,3}){3}$/.test(host);
}

function odd(): Result<string> {
  return refuse('malformed', 'Enter a name like hall.local or an address like 192.168.1.10, without http and port.');
}

const USE_THE_OTHER = 'Use the address that begins with https: the first laptop shows it at Office, Network.';

/** The address to ask. Plain http is for this machine alone: on a network anybody could read the key on its way. */
export function decideFollowAddress(address: string): Result<URL> {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url === null || (url.protocol !== 'https:' && url.protocol !== 'http:')) {
    return refuse('malformed', `${address} is not the address of a first laptop. ${USE_THE_OTHER}`);
  }
  if (url.protocol === 'https:' || isThisMachine(url.hostname)) return accept(url);
  const message = `${address} is not encrypted: anybody on the network could read the key. ${USE_THE_OTHER}`;
  return refuse('open_line', message);
}

/** For an answer that leads elsewhere: the key goes to the address that was typed, and to no other. */
export function ledElsewhere(): Result<never> {
  return refuse('wrong_address', `The first laptop sends us to another address. ${USE_THE_OTHER}`);
}

/** Home and hall routers first, then other addresses, names, and what is long to type; each once. */
export function bestFirst(hosts: readonly string[]): string[] {
  const orders = [/^192\.168\./, /^10\./, /^\d+\.\d+\.\d+\.\d+$/, /^[^[].*\./, /^[^[]/];
  const rank = (host: string) => {
    const at = orders.findIndex((order) => order.test(host));
    return at === -1 ? orders.length : at;
  };
  return [...new Set(hosts)].sort((a, b) => rank(a) - rank(b));
}

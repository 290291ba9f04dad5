import 'server-only';
import type { Book } from '#db/open.ts';
import { networkSaid } from '#db/queries/network.ts';
import { hostOf, isThisMachine } from '#lib/host-name.ts';
import { type Refusal, refuse } from '#lib/result.ts';
import { knowsHost } from './knows-host.ts';

/** How a request came, as the server's gate says in a header that it lets nobody else write. */
export interface Line {
  /** Encrypted all the way. */
  readonly secure: boolean;
  /** From a browser on the machine itself. */
  readonly fromMachine: boolean;
}

/** The headers of a request, by names in lower case. */
export interface HeaderList {
  get(name: string): string | null;
}

/** Without the gate nothing is known of the line, and the staff's doors stay shut. */
export function lineOf(headers: HeaderList): Line {
  const said = headers.get('x-peltry-line') ?? '';
  return { secure: said.startsWith('secure '), fromMachine: said.endsWith(' machine') };
}

/** Why nobody of the staff may work over this line, or undefined where they may. */
export function shutLine(book: Book, headers: HeaderList): Refusal | undefined {
  const host = headers.get('host');
  if (!knowsHost(host)) {
    return refuse('wrong_address', 'This machine is not known under that name: use its address instead.');
  }
  const { secure, fromMachine } = lineOf(headers);
  // On the machine itself nobody can listen in; a name of the network may lead through the network all the same.
  if (secure || (fromMachine && isThisMachine(hostOf(host) ?? '')) || networkSaid(book).plainStaff) return undefined;
  return refuse('open_line', 'This line is not encrypted: staff work at the address that begins with https.');
}

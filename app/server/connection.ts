import 'server-only';
import type { Book } from '#db/book/open.ts';
import { isOwnHost } from '#db/certificate/names.ts';
import { LONGEST_MS } from '#db/sign-in/sessions.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { hostOf, isThisMachine } from '#lib/network/hosts.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { serverState } from './state.ts';

/** How a request came, as the server's gate says in a header that it lets nobody else write. */
export interface Connection {
  /** Encrypted all the way. */
  readonly secure: boolean;
  /** From a browser on the machine itself. */
  readonly fromMachine: boolean;
  /** Whose requests count together: see `clientOf`. */
  readonly client: string;
}

/** The headers of a request, by names in lower case. */
export type HeaderList = Pick<Headers, 'get'>;

/** Without the gate nothing is known of the line, and the staff's doors stay shut. */
export function connectionOf(headers: HeaderList): Connection {
  const said = headers.get('x-peltry-line') ?? '';
  const client = headers.get('x-peltry-client') ?? '';
  return { secure: said.startsWith('secure '), fromMachine: said.endsWith(' machine'), client };
}

/** Why nobody of the staff may work over this line, or undefined where they may. */
export function refuseConnection(book: Book, headers: HeaderList): Refusal | undefined {
  const host = headers.get('host');
  if (!knowsHost(host)) {
    return refuse('wrong_address', 'This machine is not known under that name: use its address instead.');
  }
  const { secure, fromMachine } = connectionOf(headers);
  // On the machine itself nobody can listen in; a name of the network may lead through the network all the same.
  if (secure || (fromMachine && isThisMachine(hostOf(host) ?? '')) || networkSaid(book).plainStaff) return undefined;
  return refuse('open_line', 'This line is not encrypted: staff work at the address that begins with https.');
}

/** Whether the `Host` of a request leads to this machine: by its own names and addresses, or those the office allows. */
export function knowsHost(header: string | null): boolean {
  const host = hostOf(header);
  if (host === undefined) return false;
  return isOwnHost(host) || allowed().includes(host);
}

function allowed(): readonly string[] {
  const { book } = serverState();
  try {
    return book ? networkSaid(book).hosts : [];
  } catch {
    // A damaged book says nothing; the machine's own names lead to the page that says what to do.
    return [];
  }
}

/** A name with this start is only taken by browsers over HTTPS, for this one host and the whole site. */
const SECURE_NAME = '__Host-peltry';
const PLAIN_NAME = 'peltry-plain';

/** The token that a request brings, or undefined. What was set over an open line is worth nothing on the encrypted one. */
export function tokenIn(headers: HeaderList): string | undefined {
  return cookieIn(headers, connectionOf(headers).secure ? SECURE_NAME : PLAIN_NAME);
}

/** The value of a cookie that a request brings, or undefined. */
export function cookieIn(headers: Pick<Headers, 'get'>, name: string): string | undefined {
  const start = `${name}=`;
  const cookies = (headers.get('cookie') ?? '').split(/; */);
  return cookies.find((cookie) => cookie.startsWith(start))?.slice(start.length);
}

/** The `Set-Cookie` line that signs a device in: no script reads it, no other site sends it. */
export function cookieOf(token: string, secure: boolean): string {
  const rest = `Path=/; HttpOnly; SameSite=Strict; Max-Age=${LONGEST_MS / 1000}`;
  return secure ? `${SECURE_NAME}=${token}; ${rest}; Secure` : `${PLAIN_NAME}=${token}; ${rest}`;
}

/** The `Set-Cookie` lines that take the cookie away, whichever it was. */
export function noCookies(): string[] {
  const gone = 'Path=/; HttpOnly; SameSite=Strict; Max-Age=0';
  return [`${SECURE_NAME}=; ${gone}; Secure`, `${PLAIN_NAME}=; ${gone}`];
}

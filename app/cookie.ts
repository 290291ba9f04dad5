import 'server-only';
import { LONGEST_MS } from '#db/signing-in/sessions.ts';
import type { HeaderList } from './line.ts';

/** A name with this start is only taken by browsers over HTTPS, for this one host and the whole site. */
const SECURE_NAME = '__Host-peltry';
const PLAIN_NAME = 'peltry-plain';

/** The token that a request brings, or undefined. What was set over an open line is worth nothing on the encrypted one. */
export function tokenIn(headers: HeaderList, secure: boolean): string | undefined {
  const start = `${secure ? SECURE_NAME : PLAIN_NAME}=`;
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

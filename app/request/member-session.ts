import 'server-only';
import { cookies, headers } from 'next/headers';
import { connectionOf, refuseConnection } from '#app/server/connection.ts';
import { signInsOf, withSignIns } from '#app/server/session.ts';
import { beginMemberSession, endMemberSession, MEMBER_MS, memberOfToken } from '#db/sign-in/sessions.ts';
import { theBook } from './book.ts';

const COOKIE = 'peltry-own';
const PATH = '/prices/own';
const SHUT = `Path=${PATH}; HttpOnly; SameSite=Strict`;

/** The member who signed in with a code on this device, or undefined; never over a connection closed to the staff. */
export async function signedInMember(): Promise<number | undefined> {
  const token = (await cookies()).get(COOKIE)?.value;
  const book = await theBook();
  if (refuseConnection(book, await headers())) return undefined;
  return token === undefined ? undefined : memberOfToken(signInsOf(book), token, Date.now());
}

/** Begins a session and redirects to its page: no script reads the cookie, no other site sends it. */
export async function signInMember(request: Request, personId: number): Promise<Response> {
  const token = await withSignIns(await theBook(), (store) => beginMemberSession(store, personId, Date.now()));
  const secure = connectionOf(request.headers).secure ? '; Secure' : '';
  return redirectToOwn('', `${COOKIE}=${token}; ${SHUT}; Max-Age=${MEMBER_MS / 1000}${secure}`);
}

export async function signOutMember(): Promise<Response> {
  const token = (await cookies()).get(COOKIE)?.value;
  if (token !== undefined) await withSignIns(await theBook(), (store) => endMemberSession(store, token));
  return redirectToOwn('', `${COOKIE}=; ${SHUT}; Max-Age=0`);
}

/** The page after a form: an address of ours, so that a form without a script ends on a page that may be reloaded. */
export function redirectToOwn(words: string, cookie?: string): Response {
  const headers = new Headers({ location: `${PATH}${words}`, 'cache-control': 'no-store' });
  if (cookie !== undefined) headers.set('set-cookie', cookie);
  return new Response(null, { status: 303, headers });
}

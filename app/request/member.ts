import 'server-only';
import { cookies, headers } from 'next/headers';
import { lineOf, shutLine } from '#app/server/connection.ts';
import { signInsOf, withSignIns } from '#app/server/session.ts';
import { beginMember, endMember, MEMBER_MS, personOfToken } from '#db/sign-in/sessions.ts';
import { theBook } from './book.ts';

const COOKIE = 'peltry-own';
const PATH = '/prices/own';
const SHUT = `Path=${PATH}; HttpOnly; SameSite=Strict`;

/** The person who has come in with a code on the device that asks, or undefined; never over a line for which the staff's rule is not met. */
export async function ownPerson(): Promise<number | undefined> {
  const token = (await cookies()).get(COOKIE)?.value;
  const book = await theBook();
  if (shutLine(book, await headers())) return undefined;
  return token === undefined ? undefined : personOfToken(signInsOf(book), token, Date.now());
}

/** Begins a look and gives the answer that leads to it: no script reads the cookie, no other site sends it. */
export async function comeIn(request: Request, personId: number): Promise<Response> {
  const token = await withSignIns(await theBook(), (store) => beginMember(store, personId, Date.now()));
  const secure = lineOf(request.headers).secure ? '; Secure' : '';
  return leadTo('', `${COOKIE}=${token}; ${SHUT}; Max-Age=${MEMBER_MS / 1000}${secure}`);
}

export async function goOut(): Promise<Response> {
  const token = (await cookies()).get(COOKIE)?.value;
  if (token !== undefined) await withSignIns(await theBook(), (store) => endMember(store, token));
  return leadTo('', `${COOKIE}=; ${SHUT}; Max-Age=0`);
}

/** The page after a form: an address of ours, so that a form without a script ends on a page that may be reloaded. */
export function leadTo(words: string, cookie?: string): Response {
  const headers = new Headers({ location: `${PATH}${words}`, 'cache-control': 'no-store' });
  if (cookie !== undefined) headers.set('set-cookie', cookie);
  return new Response(null, { status: 303, headers });
}

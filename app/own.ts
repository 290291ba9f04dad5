import 'server-only';
import { cookies } from 'next/headers';
import { type OwnSessions, openOwnSessions, SESSION_MS } from '#db/own/sessions.ts';
import { theBook } from './book.ts';

const COOKIE = 'peltry-own';
const PATH = '/prices/own';

/** On `globalThis` for the same reason as the book. */
const place = globalThis as typeof globalThis & { peltryOwn?: OwnSessions };

export async function ownSessions(): Promise<OwnSessions> {
  const { file } = await theBook();
  place.peltryOwn ??= openOwnSessions(file);
  return place.peltryOwn;
}

/** The person who has come in with a code on the device that asks, or undefined. */
export async function ownPerson(): Promise<number | undefined> {
  const token = (await cookies()).get(COOKIE)?.value;
  return token === undefined ? undefined : (await ownSessions()).personOf(token, Date.now());
}

/** Begins a session and gives the answer that leads to it: no script reads the cookie, no other site sends it. */
export async function comeIn(request: Request, personId: number): Promise<Response> {
  const token = (await ownSessions()).begin(personId, Date.now());
  const secure = request.headers.get('x-forwarded-proto') === 'https' ? '; Secure' : '';
  return leadTo(
    '',
    `${COOKIE}=${token}; Path=${PATH}; HttpOnly; SameSite=Strict; Max-Age=${SESSION_MS / 1000}${secure}`,
  );
}

export async function goOut(): Promise<Response> {
  const token = (await cookies()).get(COOKIE)?.value;
  if (token !== undefined) (await ownSessions()).end(token);
  return leadTo('', `${COOKIE}=; Path=${PATH}; HttpOnly; SameSite=Strict; Max-Age=0`);
}

/** The page after a form: an address of ours, so that a form without a script ends on a page that may be reloaded. */
export function leadTo(words: string, cookie?: string): Response {
  const headers = new Headers({ location: `${PATH}${words}`, 'cache-control': 'no-store' });
  if (cookie !== undefined) headers.set('set-cookie', cookie);
  return new Response(null, { status: 303, headers });
}

/** A browser names the origin of every form it sends: one of another site is turned away. */
export function isFromHere(request: Request): boolean {
  const origin = request.headers.get('origin');
  const host = request.headers.get('host');
  return host !== null && (origin === `http://${host}` || origin === `https://${host}`);
}

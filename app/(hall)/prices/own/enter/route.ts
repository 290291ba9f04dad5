import { randomUUID } from 'node:crypto';
import { theBook } from '#app/request/book.ts';
import { redirectToOwn, signInMember } from '#app/request/member-session.ts';
import { give } from '#app/server/answer-entry.ts';
import { isOwnOrigin, readText } from '#app/server/body.ts';
import { refuseConnection } from '#app/server/connection.ts';
import { digestOfCode } from '#db/sign-in/credentials.ts';

const LONGEST_BODY = 400;

/** Takes a one-time code from the form; whatever is amiss with it, the form says so in the same words. */
export async function POST(request: Request): Promise<Response> {
  if (!isOwnOrigin(request)) return redirectToOwn('?wrong=1');
  const book = await theBook();
  if (refuseConnection(book, request.headers)) return redirectToOwn('');
  const body = await readText(request, LONGEST_BODY);
  const typed = new URLSearchParams(body.ok ? body.value : '').get('code') ?? '';
  const envelope = { command: 'member.enter', worker: 'a member', station: 'office', key: randomUUID() } as const;
  const input = { codeHash: digestOfCode(typed) };
  const answer = give(book, { ...envelope, at: new Date().toISOString(), input });
  // The code is then as good as before.
  if ('stopped' in answer) return new Response(null, { status: 303, headers: { location: '/trouble' } });
  if (!answer.ok) return redirectToOwn('?wrong=1');
  const { personId } = answer.value;
  return signInMember(request, personId);
}

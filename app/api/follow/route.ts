import { theBook } from '#app/request/book.ts';
import { connectionOf, refuseConnection } from '#app/server/connection.ts';
import { noteFollower } from '#app/server/followers.ts';
import { jsonResponse } from '#app/server/responses.ts';
import { signInsOf } from '#app/server/session.ts';
import { onLine } from '#app/server/state.ts';
import { logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { mayFollow } from '#db/follow/laptops.ts';
import { authorityFor, linesBehind } from '#db/follow/lines.ts';

/** Below what proxies and the follower itself wait for. */
const WAIT_MS = 25_000;

/** The log lines behind `?after=`, for a paired laptop that shows its key; waits until there are some. */
export async function GET(request: Request): Promise<Response> {
  const book = await theBook();
  const whyNot = whyNotAsked(book, request);
  if (whyNot) return refused(whyNot);
  const { searchParams } = new URL(request.url);
  const after = searchParams.get('after') ?? '';
  if (!/^\d{1,9}$/.test(after)) return jsonResponse({ ok: false }, 400);
  const seq = Number.parseInt(after, 10);
  // Only of a book that is a beginning of this one is it known what it has.
  const carried = authorityFor(book, searchParams.get('authority'));
  const message = { ...linesBehind({ book, store: signInsOf(book) }, seq), ...carried };
  const name = (searchParams.get('laptop') ?? '').slice(0, 80) || 'a second laptop';
  const answered = message.after === null ? () => undefined : noteFollower(name, seq);
  try {
    if (message.lines.length > 0 || carried.authority || searchParams.get('wait') === 'no')
      return jsonResponse(message);
    await lineBehind(book, seq, request.signal);
    // It may have been revoked meanwhile.
    const later = whyNotAsked(book, request);
    if (later) return refused(later);
    return jsonResponse(linesBehind({ book, store: signInsOf(book) }, seq));
  } finally {
    answered();
  }
}

/** One status for all: what is wrong is said to the laptop's terminal. */
const refused = (detail: string) => jsonResponse({ ok: false, detail }, 401);

/** The whole log goes over this line: it is encrypted, or ends on this machine, whatever staff may do elsewhere. */
function whyNotAsked(book: Book, { headers }: Request): string {
  const refusal = refuseConnection(book, headers);
  const { secure, fromMachine } = connectionOf(headers);
  if (refusal?.code === 'wrong_address') return refusal.message;
  if (refusal || !(secure || fromMachine)) {
    return 'This line is not encrypted: a second laptop follows at the address that begins with https.';
  }
  const given = headers.get('authorization')?.replace(/^Bearer /, '') ?? '';
  if (mayFollow(signInsOf(book), given, Date.now())) return '';
  return 'The first laptop does not know this key: it was taken away, or belongs to another book. Pair this laptop anew: Office, Doors shows a code.';
}

async function lineBehind(book: Book, seq: number, gone: AbortSignal): Promise<void> {
  if (logHead(book).seq !== seq) return;
  await new Promise<void>((resolve) => {
    const done = () => {
      clearTimeout(timer);
      stop();
      resolve();
    };
    const timer = setTimeout(done, WAIT_MS);
    const stop = onLine(done);
    gone.addEventListener('abort', done);
  });
}

import { theBook } from '#app/request/book.ts';
import { connectionOf, refuseConnection } from '#app/server/connection.ts';
import { noteFollower } from '#app/server/followers.ts';
import { jsonResponse } from '#app/server/responses.ts';
import { signInsOf } from '#app/server/session.ts';
import { onLine } from '#app/server/state.ts';
import { logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { mayFollow } from '#db/follow/laptops.ts';
import { linesBehind } from '#db/follow/lines.ts';

/** Below what proxies and the follower itself wait for. */
const WAIT_MS = 25_000;

/** The log lines behind `?after=`, for a paired laptop that shows its key; waits until there are some. */
export async function GET(request: Request): Promise<Response> {
  const book = await theBook();
  if (!mayAsk(book, request)) return jsonResponse({ ok: false }, 401);
  const { searchParams } = new URL(request.url);
  const after = searchParams.get('after') ?? '';
  if (!/^\d{1,9}$/.test(after)) return jsonResponse({ ok: false }, 400);
  const seq = Number.parseInt(after, 10);
  // Only of a book that is a beginning of this one is it known what it has.
  const message = linesBehind({ book, store: signInsOf(book) }, seq);
  const name = (searchParams.get('laptop') ?? '').slice(0, 80) || 'a second laptop';
  const answered = message.after === null ? () => undefined : noteFollower(name, seq);
  try {
    if (message.lines.length > 0 || searchParams.get('wait') === 'no') return jsonResponse(message);
    await lineBehind(book, seq, request.signal);
    // It may have been revoked meanwhile.
    if (!mayAsk(book, request)) return jsonResponse({ ok: false }, 401);
    return jsonResponse(linesBehind({ book, store: signInsOf(book) }, seq));
  } finally {
    answered();
  }
}

/** The whole log goes over this line: it is encrypted, or ends on this machine, whatever staff may do elsewhere. */
function mayAsk(book: Book, { headers }: Request): boolean {
  const { secure, fromMachine } = connectionOf(headers);
  if (refuseConnection(book, headers) || !(secure || fromMachine)) return false;
  const given = headers.get('authorization')?.replace(/^Bearer /, '') ?? '';
  return mayFollow(signInsOf(book), given, Date.now());
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

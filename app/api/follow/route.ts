import { theBook } from '#app/request/book.ts';
import { refuseConnection } from '#app/server/connection.ts';
import { noteFollower } from '#app/server/followers.ts';
import { jsonResponse } from '#app/server/responses.ts';
import { onLine } from '#app/server/state.ts';
import { logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { linesBehind, mayFollow } from '#db/follow/lines.ts';

/** Below what proxies and the follower itself wait for. */
const WAIT_MS = 25_000;

/** The log lines behind `?after=`, for a second laptop that shows the book's follow key; waits until there are some. */
export async function GET(request: Request): Promise<Response> {
  const book = await theBook();
  const given = request.headers.get('authorization')?.replace(/^Bearer /, '') ?? '';
  // The whole log goes over this line: it must be one over which the staff may work.
  if (refuseConnection(book, request.headers) || !mayFollow(book.file, given)) return jsonResponse({ ok: false }, 401);
  const { searchParams } = new URL(request.url);
  const after = searchParams.get('after') ?? '';
  if (!/^\d{1,9}$/.test(after)) return jsonResponse({ ok: false }, 400);
  const seq = Number.parseInt(after, 10);
  // Only of a book that is a beginning of this one is it known what it has.
  const message = linesBehind(book, seq);
  const name = (searchParams.get('laptop') ?? '').slice(0, 80) || 'a second laptop';
  const answered = message.after === null ? () => undefined : noteFollower(name, seq);
  try {
    if (message.lines.length > 0 || searchParams.get('wait') === 'no') return jsonResponse(message);
    await lineBehind(book, seq, request.signal);
    return jsonResponse(linesBehind(book, seq));
  } finally {
    answered();
  }
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

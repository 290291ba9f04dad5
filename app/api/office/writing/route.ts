import { bookOrNone } from '#app/request/book.ts';
import { officeRoute } from '#app/request/caller.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { jsonResponse } from '#app/server/responses.ts';
import { confirmLoss, lossFor } from '#app/server/seen-head.ts';
import { serverState } from '#app/server/state.ts';
import { probeDisk, troubleOfWriting } from '#db/book/trouble.ts';

const answer = (ok: boolean, words: string) => jsonResponse({ ok, words });

/** Lets writing go on after a bad moment, once the disk takes a piece of some size and the book opens whole. */
export async function POST(request: Request): Promise<Response> {
  return (await bookOrNone()) ? writeAgain(request) : answer(false, 'There is no book to write to yet.');
}

const writeAgain = officeRoute((book, request) => {
  if (lossFor(book, request.headers)) confirmLoss(book);
  const { trouble: before, watch } = serverState();
  if (!before) return answer(true, 'Writing goes on already.');
  // What is open is all there is of a file that was deleted: it must not be closed.
  if (watch?.()) return answer(false, `Not yet. ${before.title}`);
  try {
    probeDisk(book.file);
  } catch (fault) {
    const trouble = troubleOfWriting(fault);
    return answer(false, trouble ? `Not yet. ${trouble.title}` : 'Not yet: the disk still refuses.');
  }
  book.close();
  serverState().book = undefined;
  openServerBook();
  const { trouble } = serverState();
  return answer(trouble === null, trouble === null ? 'Writing goes on.' : `Not yet. ${trouble.title}`);
});

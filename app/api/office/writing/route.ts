import { bookOrNone } from '#app/request/book.ts';
import { officeAct } from '#app/request/caller.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { serverState } from '#app/server/state.ts';
import { probeDisk, troubleOfWriting } from '#db/book/trouble.ts';

/** Lets writing go on after a bad moment, once the disk takes a piece of some size and the book opens whole. */
export async function POST(request: Request): Promise<Response> {
  const book = await bookOrNone();
  const answer = (ok: boolean, words: string) => jsonResponse({ ok, words });
  if (!book) return answer(false, 'There is no book to write to yet.');
  const caller = await officeAct(request);
  if (!caller.ok) return problem(caller);
  if (!serverState().trouble) return answer(true, 'Writing goes on already.');
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
}

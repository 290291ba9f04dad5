import { answerPapers } from '#app/api/papers/answer.ts';
import { theBook } from '#app/request/book.ts';
import { signedInMember } from '#app/request/member-session.ts';
import { problem } from '#app/server/responses.ts';
import { isOwnNumber } from '#db/price/own-goods.ts';
import { sheetsOfSeller } from '#db/settlement/sheets.ts';
import { refuse } from '#lib/result/result.ts';
import { asPrinted } from '#lib/settlement/correction.ts';

const SHUT = 'Your own goods are shut on this device: ask the office for a new code.';
const NONE = 'There is no such sheet of yours: open the list of your goods.';

/** One of a person's own settlement sheets as they stand now: `?sale=1&seller=3`. Of others' there is none. */
export async function GET(request: Request): Promise<Response> {
  const personId = await signedInMember();
  if (personId === undefined) return problem(refuse('signed_out', SHUT));
  const words = new URL(request.url).searchParams;
  const asked = { saleId: whole(words.get('sale')), sellerNo: whole(words.get('seller')) };
  const book = await theBook();
  // Somebody else's number and one that nobody has are answered alike.
  if (!isOwnNumber(book, personId, asked)) return problem(refuse('unknown', NONE), 404);
  const newest = sheetsOfSeller(book, asked.saleId, asked.sellerNo).at(-1);
  const printed = newest && asPrinted(newest);
  const papers = printed ? [...(printed.report ? [printed.report] : []), printed.sheet] : [];
  return answerPapers({ book, papers, name: `sheet-${asked.saleId}-seller-${asked.sellerNo}`, none: NONE });
}

/** A number out of an address, or 0, which nobody has. */
function whole(text: string | null): number {
  return text !== null && /^\d{1,9}$/.test(text) ? Number.parseInt(text, 10) : 0;
}

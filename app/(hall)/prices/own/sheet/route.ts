import { answerPapers } from '#app/api/papers/answer.ts';
import { papersOfSheet } from '#app/api/papers/payout-papers.ts';
import { theBook } from '#app/request/book.ts';
import { numberIn } from '#app/request/caller.ts';
import { signedInMember } from '#app/request/member-session.ts';
import { notFoundProblem, problem } from '#app/server/responses.ts';
import { isOwnNumber } from '#db/price/own-goods.ts';
import { sheetsOfSeller } from '#db/settlement/sheets.ts';
import { refuse } from '#lib/result/result.ts';

const SHUT = 'Your own goods are shut on this device: ask the office for a new code.';
const NONE = 'There is no such sheet of yours: open the list of your goods.';

/** One of a person's own settlement sheets as they stand now: `?sale=1&seller=3`. Of others' there is none. */
export async function GET(request: Request): Promise<Response> {
  const personId = await signedInMember();
  if (personId === undefined) return problem(refuse('signed_out', SHUT));
  const words = new URL(request.url).searchParams;
  const numberOf = (name: string) => numberIn(words.get(name) ?? undefined, 9);
  const asked = { saleId: numberOf('sale'), sellerNo: numberOf('seller') };
  const book = await theBook();
  // Somebody else's number and one that nobody has are answered alike.
  if (!isOwnNumber(book, personId, asked)) return notFoundProblem(NONE);
  const newest = sheetsOfSeller(book, asked.saleId, asked.sellerNo).at(-1);
  const papers = newest ? papersOfSheet(newest) : [];
  return answerPapers({ book, papers, name: `sheet-${asked.saleId}-seller-${asked.sellerNo}`, none: NONE });
}

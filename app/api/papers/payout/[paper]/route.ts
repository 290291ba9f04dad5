import { staffBook } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import { payoutPapers } from '#db/queries/payout-papers.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import { refuse } from '#lib/result.ts';
import { answerPapers } from '../../answer.ts';

interface Context {
  readonly params: Promise<{ readonly paper: string }>;
}

/**
 * The papers of payout as PDF: `check-register`, `check-stubs` (`&check=1041` for one), `balance`, `closing-report`,
 * `kept`, `agency-return`, `held-over`; `?sale=1` names the sale.
 */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const allowed = await staffBook(['payout']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const sale = saleOfAddress(book, words.get('sale') ?? undefined);
  if (!sale) return problem(refuse('unknown', 'There is no such sale in the book.', 'sale'), 404);
  const { paper } = await params;
  const papers = payoutPapers(book, sale, { paper, drawnOn: today(book), check: words.get('check') });
  if (!papers) return problem(refuse('unknown', 'There is no such paper.', 'paper'), 404);
  const none = 'There is nothing to print yet.';
  return answerPapers({ book, papers, name: `${paper}-${sale.id}`, none, request });
}

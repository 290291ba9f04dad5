/** A sale after its closing: the report stays as it was, and what happens since is listed beside it by its day. */
import { longDate } from '#lib/date/date.ts';
import { type Cents, showMoney, ZERO } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { type ListPaper, listPaper, tableOf } from '#lib/paper/list.ts';
import { clean } from '#lib/settlement/spelling.ts';
import { movedWords } from './amount-words.ts';

export interface SinceEntry {
  /** ISO 8601 date. */
  readonly day: string;
  readonly memo: string;
  /** Null where it is no entry of money: fur that was handed over. */
  readonly amountCents: Cents | null;
  /** What the money of the association became more by, or less below nothing; a card fee alone is less. */
  readonly movedCents: Cents;
}

export interface OwedSince {
  readonly sellerNo: number;
  /** Still to pay to the seller; below nothing, what the seller owes because their own check came back. */
  readonly amountCents: Cents;
}

/**
 * How much of what is owed came up since the closing: what was paid less since then, and no more than is owed at all.
 * What a closing left open between partners stays open.
 */
export function owedAgain(owingCents: Cents, paidLessCents: Cents): Cents {
  const least = owingCents < paidLessCents ? owingCents : paidLessCents;
  return least > ZERO ? least : ZERO;
}

export function sinceClosingPaper(context: PaperContext, entries: readonly SinceEntry[]): ListPaper {
  const table = tableOf<SinceEntry>(entries, [
    ['words', 'Day', ({ day }) => longDate(day)],
    ['words', 'What happened', ({ memo }) => clean(memo)],
    ['money', 'Amount', ({ amountCents }) => (amountCents === null ? '' : showMoney(amountCents))],
    ['words', 'Money in or out', ({ movedCents }) => (movedCents === ZERO ? '' : movedWords(movedCents))],
  ]);
  return listPaper(context, { title: 'Since the closing', tables: [table] });
}

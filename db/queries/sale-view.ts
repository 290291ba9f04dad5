/** How far a sale has come, in figures and words, for the sale's page. */
import type { OutcomeKind } from '#lib/facts.ts';
import { addCents, cents, showMoney, ZERO } from '#lib/money.ts';
import { lotAmount } from '#lib/quantity.ts';
import { termsInWords } from '#lib/terms.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { lotsOnHold } from './intake-lots.ts';
import { saleFacts } from './sale-facts.ts';

export interface SaleView {
  readonly terms: readonly string[];
  readonly sellers: number;
  readonly buyers: number;
  readonly lots: number;
  readonly pieces: number;
  readonly onHold: number;
  readonly sold: number;
  readonly passed: number;
  readonly withdrawn: number;
  /** Lots still to be called. */
  readonly left: number;
  /** What the hammer brought so far, with commas between the thousands. */
  readonly total: string;
}

export function saleView(book: Book, sale: SaleRow): SaleView {
  const facts = saleFacts(book, sale.id);
  const byNo = new Map(facts.lots.map((lot) => [lot.lotNo, lot]));
  const many: Record<OutcomeKind, number> = { sold: 0, passed: 0, withdrawn: 0 };
  let total = ZERO;
  for (const { lotNo, kind, priceCents } of facts.outcomes) {
    many[kind] += 1;
    const lot = byNo.get(lotNo);
    if (lot && priceCents !== null) total = addCents(total, lotAmount(cents(priceCents), lot));
  }
  return {
    terms: termsInWords(facts.sale, facts.goods),
    sellers: facts.sellers.length,
    buyers: facts.buyers.length,
    lots: facts.lots.length,
    pieces: facts.lots.reduce((so, { count }) => so + (count ?? 0), 0),
    onHold: lotsOnHold(book, sale.id).length,
    ...many,
    left: facts.lots.length - facts.outcomes.length,
    total: showMoney(total),
  };
}

/** A lot's words as every paper has them. */
import type { OutcomeKind } from '#lib/facts.ts';
import { compareLotNo } from '#lib/lot-number.ts';
import { minimumInWords } from '#lib/lot-words.ts';
import { ZERO } from '#lib/money.ts';
import type { PaperLot } from '#lib/paper/facts.ts';
import { clean, priceFor } from '#lib/sheet/spell.ts';

export function goodsWords({ goodsName }: PaperLot): string {
  return clean(goodsName);
}

/** `25.00 each, 250.00 for the lot`; empty where the seller named none. */
export function minimumWords(lot: PaperLot): string {
  return lot.withoutReserve ? 'without reserve' : minimumInWords(lot.minimumCents, lot);
}

/** The minimum as it was said, for a narrow column: `25.00 each`. */
export function shortMinimum({ minimumCents, withoutReserve, by }: PaperLot): string {
  if (withoutReserve) return 'without reserve';
  return minimumCents === null ? '' : priceFor(minimumCents, by).words;
}

/** What a price of the lot stands for: `each`, `the lot`, `/ lb`. */
export function standsFor({ by }: PaperLot): string {
  return priceFor(ZERO, by).unit;
}

export function countWords(count: number, one: string): string {
  return count === 1 ? `1 ${one}` : `${count} ${one}s`;
}

/** The lots in the order of their numbers. */
export function byNumber<T extends Pick<PaperLot, 'lotNo'>>(lots: readonly T[]): T[] {
  return [...lots].sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
}

const OUTCOMES: Readonly<Record<OutcomeKind, string>> = { sold: 'sold', passed: 'no-sale', withdrawn: 'withdrawn' };

/** What became of a lot, in the words of the hall; empty for one that was not called yet. */
export function outcomeWords({ outcome }: PaperLot): string {
  return outcome === null ? '' : OUTCOMES[outcome.kind];
}

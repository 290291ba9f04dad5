/** A lot's words as every paper has them. */
import type { OutcomeKind } from '#lib/facts.ts';
import { compareLotNo } from '#lib/lot-number.ts';
import { minimumInWords } from '#lib/lot-words.ts';
import { ZERO } from '#lib/money.ts';
import type { Form, PaperLot } from '#lib/paper/facts.ts';
import { clean, joined, priceFor } from '#lib/sheet/spell.ts';

const FORMS: Readonly<Record<Form, string>> = { put_up: '', green: 'green', carcass: 'carcass' };

export function goodsWords({ goodsName }: PaperLot): string {
  return clean(goodsName);
}

/** Size, grade and section, as far as they were given. */
export function sizeWords({ size, grade, section }: PaperLot): string {
  return joined([size, grade, section], ' · ');
}

/** The same with the form, where the goods are not put up. */
export function detailWords(lot: PaperLot): string {
  return joined([sizeWords(lot), FORMS[lot.form]], ' · ');
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

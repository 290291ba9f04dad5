/** Quantities: pieces, the lot, or a weight in thousandths of a pound or an ounce; and what a price times one makes. */
import type { By } from '#lib/facts.ts';
import { firstMistake, type Mistake } from '#lib/mistake.ts';
import { type Cents, scaleHalfUp } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { wholeOf } from '#lib/whole.ts';

export { parseRate, type Rate, rate } from '#lib/rate.ts';

/** The three columns of a lot that make its quantity. The weight is in thousandths of the unit in `by`. */
export interface Measured {
  readonly by: By;
  readonly count: number | null;
  readonly weightThousandths: number | null;
}

const WEIGHT_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter the weight, such as 7.35.' },
  { when: /\s/, say: 'Leave out the spaces: write 7.35.' },
  { when: /^[-+\u2212]/, say: 'Enter a weight of more than 0, without a sign.' },
  { when: /,/, say: 'Use a point, not a comma: 7.35.' },
  { when: /[^\d.]/, say: 'Use digits and a point only, without the unit: 7.35.' },
  { when: /\.\d{4,}$/, say: 'Use at most three digits behind the point: 7.35.' },
  { when: /\..*\.|\.$/, say: 'Use one point, with digits behind it: 7.35.' },
  { when: /^0*\d{7,}(\.|$)/, code: 'too_large', say: 'Enter a weight of at most 999999.999.' },
  { when: /^0*\.?0*$/, say: 'Enter a weight of more than 0.' },
];

const COUNT_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter the number of pieces, such as 12.' },
  { when: /[^\d]/, say: 'Enter the number of pieces as a whole number in digits: 12.' },
  { when: /^0+$/, say: 'Enter at least 1 piece.' },
  { when: /^0*\d{6,}$/, code: 'too_large', say: 'Enter at most 99999 pieces in one lot, or divide the lot.' },
];

/** Reads a weight: more than 0, up to 999999.999, at most three places. Gives thousandths of the unit. */
export function parseWeight(text: string): Result<number> {
  const mistake = firstMistake(WEIGHT_MISTAKES, text);
  if (mistake !== null) return mistake;
  const thousandths = wholeOf(text, 3);
  if (thousandths > 999_999_999) return refuse('too_large', 'Enter a weight of at most 999999.999.');
  return accept(thousandths);
}

/** A weight in thousandths as decimal text without idle zeros: 7350 is `7.35`. */
export function formatWeight(thousandths: number): string {
  const rest = String(thousandths % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  return `${Math.floor(thousandths / 1000)}${rest === '' ? '' : `.${rest}`}`;
}

/** Reads a number of pieces: a whole number from 1 to 99999. */
export function parseCount(text: string): Result<number> {
  const mistake = firstMistake(COUNT_MISTAKES, text);
  return mistake ?? accept(Number.parseInt(text, 10));
}

/** The figure a lot is priced by. Throws a RangeError where it was never given. */
export function given(figure: number | null, name: string): number {
  if (figure === null) throw new RangeError(`the lot is priced by its ${name}, which was never given`);
  return figure;
}

/** Rule 1: the price times the quantity, rounded half up to the cent. */
export function lotAmount(priceCents: Cents, lot: Measured): Cents {
  if (lot.by === 'lot') return priceCents;
  if (lot.by === 'piece') return scaleHalfUp(priceCents, given(lot.count, 'count'), 1);
  return scaleHalfUp(priceCents, given(lot.weightThousandths, 'weight'), 1000);
}

/** Quantities: pieces, the lot, or a weight in thousandths of a pound or an ounce; and what a price times one makes. */
import { type Cents, scaleHalfUp } from '#lib/money.ts';

export { parseRate, type Rate, rate } from '#lib/rate.ts';

/** What a price and a minimum stand for: one piece, the whole lot, a pound or an ounce. */
export const BYS = ['piece', 'lot', 'lb', 'oz'] as const;
export type By = (typeof BYS)[number];

/** The three columns of a lot that make its quantity. The weight is in thousandths of the unit in `by`. */
export interface Measured {
  readonly by: By;
  readonly count: number | null;
  readonly weightThousandths: number | null;
}

/** A weight in thousandths as decimal text without idle zeros: 7350 is `7.35`. */
export function formatWeight(thousandths: number): string {
  const rest = String(thousandths % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  return `${Math.floor(thousandths / 1000)}${rest === '' ? '' : `.${rest}`}`;
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

/** What a lot comes to. Sum 1 of docs/exchange.md. */
import { Decimal, roundHalfUp } from '#lib/money/decimal.ts';
import type { Cents } from '#lib/money/money.ts';
import type { Measured } from '#lib/sale/facts.ts';

/** Sum 1: the quantity is the count for `piece`, 1 for `lot`, the weight for `lb` and `oz`. */
export function quantityOf({ by, count, weightThousandths }: Measured): Decimal {
  if (by === 'lot') return new Decimal(1);
  if (by === 'piece') return new Decimal(given(count, 'count'));
  return new Decimal(given(weightThousandths, 'weight')).dividedBy(1000);
}

/** Sum 1: a lot's amount is the price times the quantity, rounded. */
export function lotAmount(priceCents: Cents, lot: Measured): Cents {
  return roundHalfUp(quantityOf(lot).times(priceCents));
}

/** What one piece comes to where a lot has one price: its part of the amount, rounded. */
export function amountEach(amountCents: Cents, count: number): Cents {
  return roundHalfUp(new Decimal(amountCents).dividedBy(count));
}

function given(figure: number | null, name: string): number {
  if (figure === null) throw new RangeError(`the lot is priced by its ${name}, which was never given`);
  return figure;
}

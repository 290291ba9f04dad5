import { Decimal } from '#lib/decimal.ts';
import { given, type Measured } from '#lib/quantity.ts';

/** What a lot's price is multiplied by: its pieces, 1, or its weight. Throws when the figure it needs was never given. */
export function quantityOf(lot: Measured): Decimal {
  if (lot.by === 'lot') return new Decimal(1);
  if (lot.by === 'piece') return new Decimal(given(lot.count, 'count'));
  return new Decimal(given(lot.weightThousandths, 'weight')).dividedBy(1000);
}

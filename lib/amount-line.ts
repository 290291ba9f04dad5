/** What a price makes of a lot, before it is saved: the sum as a clerk reads it back. */
import { type Cents, parseMoney, showMoney } from '#lib/money.ts';
import { formatWeight, lotAmount, type Measured } from '#lib/quantity.ts';

/** The finished line: `32 × 13.25 = 424.00`, `7.35 lb × 3.50 = 25.73`, `the lot = 40.00`. */
function amountLine(priceCents: Cents, lot: Measured): string {
  const amount = showMoney(lotAmount(priceCents, lot));
  if (lot.by === 'lot') return `the lot = ${amount}`;
  return `${quantityWords(lot)} × ${showMoney(priceCents)} = ${amount}`;
}

/** The line for a price as far as it is typed; empty while it is no price yet or the lot lacks its figure. */
export function amountLineOf(typed: string, lot: Measured): string {
  const price = parseMoney(typed, { allowZero: false });
  if (!price.ok) return '';
  const figure = lot.by === 'piece' ? lot.count : lot.by === 'lot' ? 1 : lot.weightThousandths;
  return figure === null ? '' : amountLine(price.value, lot);
}

function quantityWords({ by, count, weightThousandths }: Measured): string {
  return by === 'piece' ? String(count) : `${formatWeight(weightThousandths ?? 0)} ${by}`;
}

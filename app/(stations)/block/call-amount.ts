/**
 * What a price comes to at the Block, as the clerk reads it back before anything is saved, and as a row shows it until
 * the book has answered. The browser's first code there carries no library of decimals (0031), so this one product is in
 * BigInt. It is a preview: every saved figure is `lotAmount` of `lib/lot/amount.ts`, and a law holds the two to the same cent.
 */

import { type Cents, cents, formatWeight, readMoney, showMoney } from '#lib/money/money.ts';
import type { Measured } from '#lib/sale/facts.ts';

/** The price times the quantity, rounded half up; prices are not negative. Throws when the lot lacks its figure. */
export function previewAmount(priceCents: Cents, lot: Measured): Cents {
  const thousandths = thousandthsOf(lot);
  if (thousandths === null) throw new RangeError('the lot lacks the figure it is priced by');
  return cents(Number.parseInt(String((BigInt(priceCents) * BigInt(thousandths) + 500n) / 1000n), 10));
}

function thousandthsOf({ by, count, weightThousandths }: Measured): number | null {
  if (by === 'lot') return 1000;
  if (by === 'piece') return count === null ? null : count * 1000;
  return weightThousandths;
}

/**
 * The line for a price as far as it is typed: `32 × 13.25 = 424.00`, `7.35 lb × 3.50 = 25.73`, `the lot = 40.00`.
 * Empty while it is no price yet or the lot lacks its figure.
 */
export function amountLineOf(typed: string, lot: Measured): string {
  const price = readMoney(typed, { allowZero: false });
  if (!price.ok || thousandthsOf(lot) === null) return '';
  const amount = showMoney(previewAmount(price.value, lot));
  if (lot.by === 'lot') return `the lot = ${amount}`;
  const quantity = lot.by === 'piece' ? String(lot.count) : `${formatWeight(lot.weightThousandths ?? 0)} ${lot.by}`;
  return `${quantity} × ${showMoney(price.value)} = ${amount}`;
}

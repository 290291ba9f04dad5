/** What a lot says of itself, as words for the tables of the stations. */

import type { By, Measured } from '#lib/facts.ts';
import { amountEach, lotAmount } from '#lib/lot/amount.ts';
import { type Cents, formatWeight, showMoney } from '#lib/money.ts';

const UNITS: Readonly<Record<By, string>> = { piece: 'each', lot: 'for the lot', lb: 'a lb', oz: 'an oz' };

/** What a price or a minimum stands for, as it is said: `each`, `for the lot`. */
export function unitInWords(by: By): string {
  return UNITS[by];
}

/** Pieces and weight, whichever the lot has: `12 pieces`, `7.35 lb`, `16 pieces, 15.5 oz`. */
export function quantityInWords({ by, count, weightThousandths }: Measured): string {
  const pieces = count === null ? [] : [count === 1 ? '1 piece' : `${count} pieces`];
  const weight = weightThousandths === null ? [] : [`${formatWeight(weightThousandths)} ${by}`];
  return [...pieces, ...weight].join(', ');
}

/**
 * A minimum as it was said and, where it can be told, the other way of saying it: `25.00 each, 250.00 for the lot`.
 * The minimum of one piece out of a minimum for the lot is rounded half up to the cent.
 */
export function minimumInWords(minimumCents: Cents | null, lot: Measured): string {
  if (minimumCents === null) return '';
  const said = `${showMoney(minimumCents)} ${unitInWords(lot.by)}`;
  const other = otherMinimum(minimumCents, lot);
  return other === '' ? said : `${said}, ${other}`;
}

function otherMinimum(minimumCents: Cents, lot: Measured): string {
  if (lot.by === 'lot') {
    if (lot.count === null || lot.count < 2) return '';
    return `${showMoney(amountEach(minimumCents, lot.count))} each`;
  }
  const known = lot.by === 'piece' ? lot.count : lot.weightThousandths;
  if (known === null || (lot.by === 'piece' && known < 2)) return '';
  return `${showMoney(lotAmount(minimumCents, lot))} for the lot`;
}

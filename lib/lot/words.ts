/** What a lot says of itself, as words for the tables of the stations. */
import { type Cents, formatWeight, showMoney, ZERO } from '#lib/money/money.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import type { PaperLot } from '#lib/paper/facts.ts';
import { countWords } from '#lib/result/text.ts';
import type { By, Measured } from '#lib/sale/facts.ts';
import { clean, priceFor } from '#lib/settlement/spelling.ts';
import { amountEach, lotAmount } from './amount.ts';
import { compareLotNo } from './number.ts';

const UNITS: Readonly<Record<By, string>> = { piece: 'each', lot: 'for the lot', lb: 'a lb', oz: 'an oz' };

export function unitInWords(by: By): string {
  return UNITS[by];
}

/** Pieces and weight, whichever the lot has: `12 pieces`, `7.35 lb`, `16 pieces, 15.5 oz`. */
export function quantityInWords({ by, count, weightThousandths }: Measured): string {
  const pieces = count === null ? [] : [countWords(count, 'piece')];
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

export function byNumber<T extends Pick<PaperLot, 'lotNo'>>(lots: readonly T[]): T[] {
  return [...lots].sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
}

/** What became of a lot, in the words of the hall; empty for one that was not called yet. */
export function lotOutcomeWords({ outcome }: PaperLot): string {
  return outcome === null ? '' : OUTCOME_WORDS[outcome.kind];
}

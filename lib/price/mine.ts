/**
 * What a list of goods would have brought at the quarters of a past season, before and after a sale's commission and
 * fees. Arithmetic with what was paid, with every sum shown; never a forecast.
 */
import { lotAmount } from '#lib/lot/amount.ts';
import { addCents, type Cents, formatWeight, subtractCents, sumCents } from '#lib/money/money.ts';
import { parseCount, parseWeight } from '#lib/quantity/quantity.ts';
import type { Refusal } from '#lib/result/result.ts';
import type { By } from '#lib/sale/facts.ts';
import { commissionOf, type LotContext } from '#lib/settlement/settlement.ts';
import type { PriceRange } from './range.ts';

/** One kind of goods that somebody may have, and what they typed; an empty text means none of it. */
export interface Asked {
  readonly goods: string;
  readonly name: string;
  /** What it brought in the season, or null where there is no ground for an answer. */
  readonly range: PriceRange | null;
  readonly by: Exclude<By, 'lot'>;
  readonly typed: string;
}

export interface MineSums {
  readonly beforeCents: Cents;
  readonly commissionCents: Cents;
  readonly feesCents: Cents;
  readonly afterCents: Cents;
}

export interface MineLine {
  readonly goods: string;
  readonly name: string;
  readonly range: PriceRange;
  readonly quantity: string;
  /** At the price that a quarter of the pieces brought or less, and at the one that three quarters did. */
  readonly low: MineSums;
  readonly high: MineSums;
}

export interface MineAnswer {
  readonly lines: readonly MineLine[];
  /** What was asked for and has no ground: its names. */
  readonly without: readonly string[];
  readonly refused: ReadonlyMap<string, Refusal>;
  readonly sellerNumberFeeCents: Cents;
  /** All lines, with the seller number's fee in the fees; null where no line has an answer. */
  readonly low: MineSums | null;
  readonly high: MineSums | null;
}

/** The same goods sold by the piece and by weight are two lines. */
export function mineKey({ goods, by }: Pick<Asked, 'goods' | 'by'>): string {
  return `${goods} ${by}`;
}

/** Works the list out, each kind as one lot that is sold. Lines without an answer are named and left out of the sums. */
export function whatMineBrought(asked: readonly Asked[], context: LotContext): MineAnswer {
  const refused = new Map<string, Refusal>();
  const lines: MineLine[] = [];
  const without: string[] = [];
  for (const one of asked) {
    const typed = one.typed.trim();
    if (typed === '' || /^0+$/.test(typed)) continue;
    const read = one.by === 'piece' ? parseCount(typed) : parseWeight(typed);
    if (!read.ok) refused.set(mineKey(one), read);
    else if (one.range === null) without.push(one.name);
    else lines.push(lineOf({ ...one, range: one.range }, read.value, context));
  }
  const fee = context.terms.sellerNumberFeeCents;
  const total = (end: 'low' | 'high') => (lines.length === 0 ? null : addedUp(lines, end, fee));
  return { lines, without, refused, sellerNumberFeeCents: fee, low: total('low'), high: total('high') };
}

type Grounded = Asked & { readonly range: PriceRange };

function lineOf({ goods, name, range, by }: Grounded, amount: number, context: LotContext): MineLine {
  const lot = { by, count: by === 'piece' ? amount : null, weightThousandths: by === 'piece' ? null : amount };
  const at = (price: Cents): MineSums => {
    const beforeCents = lotAmount(price, lot);
    const commissionCents = commissionOf(beforeCents, { ...context, goods });
    const feesCents = context.terms.lotFeeCents;
    const afterCents = subtractCents(beforeCents, addCents(commissionCents, feesCents));
    return { beforeCents, commissionCents, feesCents, afterCents };
  };
  const quantity = by === 'piece' ? String(amount) : formatWeight(amount);
  return { goods, name, range, quantity, low: at(range.p25Cents), high: at(range.p75Cents) };
}

function addedUp(lines: readonly MineLine[], end: 'low' | 'high', numberFee: Cents): MineSums {
  const all = (figure: keyof MineSums) => sumCents(lines.map((line) => line[end][figure]));
  return {
    beforeCents: all('beforeCents'),
    commissionCents: all('commissionCents'),
    feesCents: addCents(all('feesCents'), numberFee),
    afterCents: subtractCents(all('afterCents'), numberFee),
  };
}

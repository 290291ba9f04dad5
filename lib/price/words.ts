/** A price range as sentences, words before figures; never what goods will bring. */
import { showMoney } from '#lib/money/money.ts';
import { countWords } from '#lib/result/text.ts';
import { LEVELS, type Level, type RangePart } from './parts.ts';
import type { PriceRange } from './range.ts';
import type { PriceMeasure } from './table.ts';

const UNITS: Readonly<Record<PriceMeasure, string>> = { piece: '', lb: ' a lb', oz: ' an oz' };

/** `Raccoon brought 3.50 to 14.00 in season 2025-26; half of them between 6.25 and 9.75 (412 pieces, 38 lots).` */
export function rangeInWords({ name, season }: { name: string; season: string }, range: PriceRange): string {
  const unit = UNITS[range.measure];
  const on = `(${quantityWords(range)}, ${groundWords(range)})`;
  if (range.lowCents === range.highCents)
    return `${name} brought ${showMoney(range.lowCents)}${unit} in season ${season} ${on}.`;
  const half = range.measure === 'piece' ? 'half of them' : 'half of the lots';
  const brought = `${name} brought ${showMoney(range.lowCents)} to ${showMoney(range.highCents)}${unit} in season ${season}`;
  return `${brought}; ${half} ${between(range)} ${on}.`;
}

/** `38 lots`, or `12 rows of a price list` where there is no more. */
function groundWords({ lots, sellers }: Pick<PriceRange, 'lots' | 'sellers'>): string {
  return sellers === null ? `${countWords(lots, 'row')} of a price list` : countWords(lots, 'lot');
}

function between({ p25Cents, p75Cents }: PriceRange): string {
  if (p25Cents === p75Cents) return `at ${showMoney(p25Cents)}`;
  return `between ${showMoney(p25Cents)} and ${showMoney(p75Cents)}`;
}

/** How little it rests on, or nothing where it rests on enough. */
export function fewInWords(range: PriceRange): string {
  if (!range.few) return '';
  const said = range.measure === 'piece' ? quantityWords(range) : countWords(range.lots, 'lot');
  return `Only ${said}: too few to say much.`;
}

/** `412 pieces`, `15.5 oz`. */
export function quantityWords({ measure, quantity }: Pick<PriceRange, 'measure' | 'quantity'>): string {
  if (measure !== 'piece') return `${quantity} ${measure}`;
  return quantity === '1' ? '1 piece' : `${quantity.replace(/\B(?=(\d{3})+$)/g, ',')} pieces`;
}

/** What a price of the measure is for: `a piece`, `a pound`, `an ounce`. */
export const FOR_ONE: Readonly<Record<PriceMeasure, string>> = { piece: 'a piece', lb: 'a pound', oz: 'an ounce' };

/** What a part is called: `section west`, `size L`, `no grade named`, `the other sizes: S, XS`. */
export function partInWords({ level, value, values }: Pick<RangePart, 'level' | 'value' | 'values'>): string {
  if (value === null)
    return `other ${level}s together: ${values.map((one) => (one === '' ? 'none named' : valueInWords(level, one))).join(', ')}`;
  if (level === 'form') return valueInWords(level, value);
  return value === '' ? `no ${level} named` : `${level} ${value}`;
}

/** `put up` for the form that the book calls `put_up`; other values are the association's own words. */
export function valueInWords(level: Level, value: string): string {
  return level === 'form' ? value.replace('_', ' ') : value;
}

/** One part of goods named by its values, such as section east and size L, and found again in other seasons. */
export type PartPath = Partial<Readonly<Record<Level, string>>>;

/**
 * The part that holds the lots of these values and no others, or null where the season shows none: where it has none,
 * or where its values went together with others. A level at which all lots are alike tells nothing apart, so it may be
 * named or not.
 */
export function partAt(parts: readonly RangePart[], asked: PartPath): RangePart | null {
  const { [parts[0]?.level ?? 'section']: value, ...behind } = asked;
  if (value === undefined && (parts.length > 1 || nameNone(asked))) return null;
  const part = value === undefined ? parts[0] : parts.find((one) => one.value === value);
  if (part === undefined || part.value === null) return null;
  return nameNone(behind) ? part : partAt(part.parts, behind);
}

export function nameNone(path: PartPath): boolean {
  return Object.keys(path).length === 0;
}

/** `section east, size L`. */
export function pathInWords(path: PartPath): string {
  return LEVELS.flatMap((level) => {
    const value = path[level];
    return value === undefined ? [] : [partInWords({ level, value, values: [value] })];
  }).join(', ');
}

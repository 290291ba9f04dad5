/** The questions about a sale and its terms, each with what it does in a sentence: asked first, and again to amend. */
import { parseCurrency, parseRegion } from '#lib/codes.ts';
import { parseDate } from '#lib/dates.ts';
import type { Bidding } from '#lib/facts.ts';
import { parseMoney, parseRate } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export type SalePart = 'sale' | 'commission' | 'fees' | 'buyers';

interface Question {
  readonly name: SaleField;
  readonly part: SalePart;
  readonly label: string;
  readonly hint: string;
  /** The field that a refusal of the book names. */
  readonly error: string;
  readonly keypad: boolean;
  readonly start: string;
  /** What the book will say of the text, said before the next step. */
  readonly read: (text: string) => Result<unknown>;
}

const anything = (text: string): Result<string> => accept(text);
const something = (text: string): Result<string> =>
  text.trim() === '' ? refuse('missing', 'Enter something here.') : accept(text);
const dateOrNothing = (text: string): Result<unknown> => (text === '' ? accept(null) : parseDate(text));

/** Name, part, label, the field that a refusal of the book names, how it is read, what stands there first, and its hint. */
const ROWS = [
  ['name', 'sale', 'Name of the sale', 'name', something, '', 'Stands on every paper. Such as Winter Sale.'],
  [
    'heldOn',
    'sale',
    'Held on',
    'held_on',
    parseDate,
    '',
    'Who has paid dues to this day sells as a member. As 2027-02-27.',
  ],
  ['venue', 'sale', 'Venue', 'venue', anything, '', 'Stands on the papers. Such as Grange hall.'],
  ['season', 'sale', 'Season', 'season', something, '', 'Prices are compared by it. As 2026-27.'],
  [
    'seasonClosesOn',
    'sale',
    'Season closes on',
    'season_closes_on',
    dateOrNothing,
    '',
    'Furs held over are reckoned from it. May be left empty.',
  ],
  ['region', 'sale', 'State', 'region', parseRegion, '', 'Export tags are checked against it. As US-WY (ISO 3166-2).'],
  ['currency', 'sale', 'Currency', 'currency', parseCurrency, 'USD', 'As USD (ISO 4217).'],
  [
    'member',
    'commission',
    'Members pay, %',
    'terms.commission.member',
    parseRate,
    '6',
    'Off the hammer price of a member’s lot. 4 to 6 is common.',
  ],
  [
    'guest',
    'commission',
    'Guests pay, %',
    'terms.commission.guest',
    parseRate,
    '10',
    'Off the hammer price of a guest’s lot. 8 to 10 is common.',
  ],
  [
    'commissionMin',
    'commission',
    'At least',
    'terms.commission_min',
    parseMoney,
    '0.00',
    'The least commission of a lot; never more than the lot brought.',
  ],
  [
    'sellerNumberFee',
    'fees',
    'Seller number',
    'terms.seller_number_fee',
    parseMoney,
    '5.00',
    'What a number costs its seller, once. 5.00 is common.',
  ],
  ['lotFee', 'fees', 'Lot fee', 'terms.lot_fee', parseMoney, '0.00', 'For each lot sold or passed. Most ask none.'],
  [
    'noSaleFee',
    'fees',
    'No-sale fee',
    'terms.no_sale.flat',
    parseMoney,
    '0.00',
    'For each lot that is passed. 5.00 or none is common.',
  ],
  [
    'noSalePct',
    'fees',
    'No-sale fee, % of the minimum',
    'terms.no_sale.pct_of_minimum',
    parseRate,
    '0',
    'On top of it, where a lot has a minimum. 2 or none.',
  ],
  [
    'dues',
    'fees',
    'Dues',
    'terms.dues',
    parseMoney,
    '25.00',
    'What a year costs a member, taken at the check-in table. 15 to 35 is common.',
  ],
  [
    'premiumPct',
    'buyers',
    'Buyer’s premium, %',
    'terms.premium_pct',
    parseRate,
    '0',
    'What buyers pay on top of the hammer price. Rare at such sales.',
  ],
  [
    'taxPct',
    'buyers',
    'Sales tax, %',
    'terms.tax_pct',
    parseRate,
    '0',
    'For buyers who are not exempt. Ask your accountant.',
  ],
  [
    'priceStep',
    'buyers',
    'Prices go by',
    'terms.price_step',
    parseMoney,
    '0.25',
    'At the Block, a price off this step is asked about once. 0.00 for never.',
  ],
] as const;

export type SaleField = (typeof ROWS)[number][0];

export const SALE_FIELDS: readonly Question[] = ROWS.map(([name, part, label, error, read, start, hint]) => ({
  ...{ name, part, label, hint, start, read },
  error: `sale.${error}`,
  keypad: read === parseMoney || read === parseRate,
}));

export type TypedSale = Readonly<Record<SaleField, string>>;

/** What is chosen or ticked, beside what is typed. */
export interface ChosenSale {
  readonly bidding: Bidding;
  readonly guestsMaySell: boolean;
}

export const START_TYPED = Object.fromEntries(SALE_FIELDS.map(({ name, start }) => [name, start])) as TypedSale;
export const START_CHOSEN: ChosenSale = { bidding: 'floor', guestsMaySell: true };

/** What is wrong with the typed text of some parts, by the field's name. */
export function mistakesIn(parts: readonly SalePart[], typed: TypedSale): Readonly<Partial<Record<SaleField, string>>> {
  const wrong = SALE_FIELDS.filter(({ part }) => parts.includes(part)).flatMap(({ name, read }) => {
    const result = read(typed[name]);
    return result.ok ? [] : [[name, result.message] as const];
  });
  return Object.fromEntries(wrong);
}

export interface Override {
  readonly goods: string;
  readonly member: string;
  readonly guest: string;
}

/** The sale as the commands take it: figures stay as they were typed, for the book to read. */
export function saleAsTyped(typed: TypedSale, chosen: ChosenSale, overrides: readonly Override[]) {
  const { name, heldOn, venue, season, seasonClosesOn, region, currency } = typed;
  const terms = {
    commission: { member: typed.member, guest: typed.guest },
    commission_overrides: Object.fromEntries(overrides.map(({ goods, ...rates }) => [goods, rates])),
    commission_min: typed.commissionMin,
    seller_number_fee: typed.sellerNumberFee,
    lot_fee: typed.lotFee,
    no_sale: { flat: typed.noSaleFee, pct_of_minimum: typed.noSalePct },
    premium_pct: typed.premiumPct,
    tax_pct: typed.taxPct,
    price_step: typed.priceStep,
    guests_may_sell: chosen.guestsMaySell,
    dues: typed.dues,
  };
  const day = { name, held_on: heldOn, venue, season, season_closes_on: seasonClosesOn };
  return { ...day, region, currency, bidding: chosen.bidding, terms };
}

/**
 * Everything that is asked of a sale and its terms, once: the input of the commands, `sale.json`, the row and the form
 * follow from these lists, in the order of the file.
 */
import { type AnyField, type Facts, fieldNames, type Typed } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { ZERO } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';

export type SalePart = 'sale' | 'commission' | 'fees' | 'buyers';

interface SaleFieldRules extends AnyField {
  readonly part: SalePart;
  /** What stands in the form of a first sale. */
  readonly start: string;
  readonly hint: string;
}

const day = { part: 'sale', start: '' } as const;
const named = { kind: KIND.name, column: KIND.name } as const;
const fee = { kind: KIND.amount(), empty: ZERO, column: KIND.money() } as const;
const share = { kind: KIND.percent, empty: rate('0'), column: KIND.percentage } as const;

export const SALE_FIELDS = {
  name: { ...day, ...named, label: 'Name of the sale', hint: 'Stands on every paper. Such as Winter Sale.' },
  heldOn: {
    ...{ ...day, kind: KIND.day, column: KIND.date },
    label: 'Held on',
    hint: 'Who has paid dues to this day sells as a member. Such as Feb 27, 2027.',
  },
  venue: {
    ...{ ...day, kind: KIND.words, empty: '', column: KIND.words },
    label: 'Venue',
    hint: 'Stands on the papers. Such as Grange hall.',
  },
  season: { ...day, ...named, label: 'Season', hint: 'Prices are compared by it. As 2026-27.' },
  seasonClosesOn: {
    ...{ ...day, kind: KIND.orNull(KIND.day), empty: null, column: KIND.orNull(KIND.date) },
    label: 'Season closes on',
    hint: 'Furs held over are reckoned from it. May be left empty.',
  },
  region: {
    ...{ ...day, kind: KIND.region, column: KIND.region },
    label: 'State',
    hint: 'Export tags are checked against it. As US-WY (ISO 3166-2).',
  },
  currency: {
    ...{ kind: KIND.currency, column: KIND.currency, part: 'sale', start: 'USD' },
    label: 'Currency',
    hint: 'As USD (ISO 4217).',
  },
  bidding: {
    ...{ ...day, kind: KIND.oneOf('floor', 'sealed'), column: KIND.oneOf('floor', 'sealed') },
    label: 'How it is sold',
    hint: 'At a called sale the hammer decides, at a written one the highest bid on paper.',
  },
} as const satisfies Readonly<Record<string, SaleFieldRules>>;

/** The percentages of commission, of all goods or of some. */
export const RATE_FIELDS = {
  member: {
    ...{ ...share, part: 'commission', start: '6' },
    label: 'Members pay, %',
    hint: 'Off the hammer price of a member’s lot. 4 to 6 is common.',
  },
  guest: {
    ...{ ...share, part: 'commission', start: '10' },
    label: 'Guests pay, %',
    hint: 'Off the hammer price of a guest’s lot. 8 to 10 is common.',
  },
} as const satisfies Readonly<Record<string, SaleFieldRules>>;

/** The terms beside the commission. The two of the no-sale fee stand together in `sale.json`, under `no_sale`. */
export const TERM_FIELDS = {
  commissionMin: {
    ...{ ...fee, part: 'commission', start: '0.00' },
    label: 'At least',
    hint: 'The least commission of a lot; never more than the lot brought.',
  },
  sellerNumberFee: {
    ...{ ...fee, part: 'fees', start: '5.00' },
    label: 'Seller number',
    hint: 'What a number costs its seller, once. 5.00 is common.',
  },
  lotFee: {
    ...{ ...fee, part: 'fees', start: '0.00' },
    label: 'Lot fee',
    hint: 'For each lot sold or passed. Most ask none.',
  },
  noSaleFlat: {
    ...{ ...fee, part: 'fees', start: '0.00' },
    label: 'No-sale fee',
    hint: 'For each lot that is passed. 5.00 or none is common.',
  },
  noSalePctOfMinimum: {
    ...{ ...share, part: 'fees', start: '0' },
    label: 'No-sale fee, % of the minimum',
    hint: 'On top of it, where a lot has a minimum. 2 or none.',
  },
  premiumPct: {
    ...{ ...share, part: 'buyers', start: '0' },
    label: 'Buyer’s premium, %',
    hint: 'What buyers pay on top of the hammer price. Rare at such sales.',
  },
  taxPct: {
    ...{ ...share, part: 'buyers', start: '0' },
    label: 'Sales tax, %',
    hint: 'For buyers who are not exempt. Ask your accountant.',
  },
  priceStep: {
    ...{ ...fee, part: 'buyers', start: '0.25' },
    label: 'Prices go by',
    hint: 'At the Block, a price off this step is asked about once. 0.00 for never.',
  },
  leftBids: {
    ...{
      kind: KIND.oneOf('step', 'bid'),
      empty: 'step',
      column: KIND.oneOf('step', 'bid'),
      part: 'buyers',
      start: 'step',
    },
    label: 'A left bid takes a lot',
    hint: 'What a lot goes for when a bid that was left with the clerk is the highest. Common practice, no source.',
  },
  guestsMaySell: {
    ...{ kind: KIND.flag, empty: true, column: KIND.flag, part: 'commission', start: '' },
    label: 'Guests may sell too',
    hint: '',
  },
  dues: {
    ...{ ...fee, part: 'fees', start: '25.00' },
    label: 'Dues',
    hint: 'What a year costs a member, taken at the check-in table. 15 to 35 is common.',
  },
} as const satisfies Readonly<Record<string, SaleFieldRules>>;

export type SaleDay = Facts<typeof SALE_FIELDS>;
export type SaleTerms = Facts<typeof TERM_FIELDS>;

export type SaleAsTyped = Typed<typeof SALE_FIELDS> & Typed<typeof RATE_FIELDS> & Typed<typeof TERM_FIELDS>;
const ASKED = { ...SALE_FIELDS, ...RATE_FIELDS, ...TERM_FIELDS };
/** The questions that are answered by typing, in the order of the form. */
export const SALE_QUESTIONS = fieldNames(ASKED).filter(
  (name) => name !== 'bidding' && name !== 'guestsMaySell' && name !== 'leftBids',
);
export type SaleField = (typeof SALE_QUESTIONS)[number];

export function saleField(name: SaleField): SaleFieldRules {
  return ASKED[name];
}

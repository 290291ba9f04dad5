/** The questions of a first sale, and the command that they make. */
import type { StartingGoods } from '#lib/starting-goods.ts';

/** The parts of the form, in their order. */
export const FIRST_PARTS = { whose: 'Whose book', sale: 'The sale', terms: 'Its terms' } as const;

/** Each question with what it does in one sentence; `error` is the field of the command that a refusal names. */
export const FIRST_FIELDS = [
  {
    name: 'association',
    part: 'whose',
    label: 'Association',
    hint: 'Stands at the top of every paper.',
    error: 'name',
    keypad: false,
    start: '',
  },
  {
    name: 'sale',
    part: 'sale',
    label: 'Name of the sale',
    hint: 'Such as Winter Sale.',
    error: 'sale.name',
    keypad: false,
    start: '',
  },
  {
    name: 'heldOn',
    part: 'sale',
    label: 'Held on',
    hint: 'As 2027-02-27.',
    error: 'sale.held_on',
    keypad: false,
    start: '',
  },
  {
    name: 'venue',
    part: 'sale',
    label: 'Venue',
    hint: 'Such as Grange hall.',
    error: 'sale.venue',
    keypad: false,
    start: '',
  },
  {
    name: 'season',
    part: 'sale',
    label: 'Season',
    hint: 'As 2026-27.',
    error: 'sale.season',
    keypad: false,
    start: '',
  },
  {
    name: 'region',
    part: 'sale',
    label: 'State',
    hint: 'As US-WY (ISO 3166-2).',
    error: 'sale.region',
    keypad: false,
    start: '',
  },
  {
    name: 'currency',
    part: 'sale',
    label: 'Currency',
    hint: 'As USD (ISO 4217).',
    error: 'sale.currency',
    keypad: false,
    start: 'USD',
  },
  {
    name: 'member',
    part: 'terms',
    label: 'Members pay, %',
    hint: 'Commission of a member’s lot; 4 to 6 is common.',
    error: 'sale.terms.commission.member',
    keypad: true,
    start: '6',
  },
  {
    name: 'guest',
    part: 'terms',
    label: 'Guests pay, %',
    hint: 'Commission of a guest’s lot; 8 to 10 is common.',
    error: 'sale.terms.commission.guest',
    keypad: true,
    start: '10',
  },
  {
    name: 'sellerNumberFee',
    part: 'terms',
    label: 'Seller number',
    hint: 'What a number costs each seller.',
    error: 'sale.terms.seller_number_fee',
    keypad: true,
    start: '5.00',
  },
  {
    name: 'lotFee',
    part: 'terms',
    label: 'Lot fee',
    hint: 'For each lot sold or passed.',
    error: 'sale.terms.lot_fee',
    keypad: true,
    start: '0.00',
  },
  {
    name: 'noSaleFee',
    part: 'terms',
    label: 'No-sale fee',
    hint: 'For each lot that is passed.',
    error: 'sale.terms.no_sale.flat',
    keypad: true,
    start: '0.00',
  },
  {
    name: 'priceStep',
    part: 'terms',
    label: 'Prices go by',
    hint: 'Another price is asked about once.',
    error: 'sale.terms.price_step',
    keypad: true,
    start: '0.25',
  },
  {
    name: 'dues',
    part: 'terms',
    label: 'Dues',
    hint: 'What a year costs a member.',
    error: 'sale.terms.dues',
    keypad: true,
    start: '25.00',
  },
] as const;

export type FirstField = (typeof FIRST_FIELDS)[number]['name'];

/** The input of the command `sale.plan`: figures stay as they were typed, for the book to read. */
export function plannedSale(
  typed: Readonly<Record<FirstField, string>>,
  bidding: 'floor' | 'sealed',
  goods: readonly StartingGoods[],
) {
  const { sale: name, heldOn, venue, season, region, currency } = typed;
  const terms = {
    commission: { member: typed.member, guest: typed.guest },
    seller_number_fee: typed.sellerNumberFee,
    lot_fee: typed.lotFee,
    no_sale: { flat: typed.noSaleFee },
    price_step: typed.priceStep,
    dues: typed.dues,
  };
  return { sale: { name, held_on: heldOn, venue, season, region, currency, bidding, terms }, goods };
}

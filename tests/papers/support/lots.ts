/** Lots to print: plain ones, and those that paper finds hard. */
import { emptyFacts } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { lotNo } from '#lib/lot/number.ts';
import type { PaperContext, PaperLot } from '#lib/paper/facts.ts';
import { money, sale } from '#tests/support/facts.ts';
import { ASSOCIATION, HEAD } from './sheets.ts';

export const GROUND: PaperContext = {
  association: ASSOCIATION,
  saleId: 4,
  sale: sale(),
  issuedOn: '2026-02-28',
  head: HEAD,
};

export function paperLot(no: string, over: Partial<PaperLot> = {}): PaperLot {
  return {
    lotNo: lotNo(no),
    sellerNo: 1,
    goodsName: 'Raccoon',
    exportTag: false,
    caution: '',
    ...emptyFacts(LOT_FIELDS),
    by: 'piece',
    count: 12,
    tags: [],
    holds: [],
    leftBids: [],
    outcome: null,
    ...over,
  };
}

export function intactTags(from: number, count: number) {
  return Array.from({ length: count }, (_, at) => ({
    tag: `US-CITES WY BOB 2025 ${String(from + at).padStart(6, '0')}`,
    condition: 'intact' as const,
  }));
}

export const LONG_GOODS = 'Łódź marten, Ñandú and ʻOkina mink, stretched fur side out on wire';

/** One of each kind: by piece, lot and weight, with every remark a ticket can carry. */
export const HARD_LOTS: readonly PaperLot[] = [
  paperLot('1', {
    ...{ size: 'XL', grade: 'heavy', section: 'Basin', minimumCents: money('25.00') },
    leftBids: [{ buyerNo: 11, price: '31.50' }],
  }),
  paperLot('9999A', { sellerNo: 1204, goodsName: LONG_GOODS, count: 350, minimumCents: money('1250.00'), by: 'lot' }),
  paperLot('99999Z', { sellerNo: 99999, count: 99999, minimumCents: money('9999999.99'), form: 'carcass' }),
  paperLot('12', { goodsName: 'Bobcat', exportTag: true, count: 18, tags: intactTags(101, 18), size: 'L' }),
  paperLot('13', { goodsName: 'Beaver castor', by: 'oz', count: 16, weightThousandths: 15_500, withoutReserve: true }),
  paperLot('14', {
    form: 'green',
    caution: 'Gloves; can carry tularemia. Wash hands.',
    note: 'in the freezer, shelf 3',
  }),
  paperLot('15B', { form: 'carcass', goodsName: 'Coyote', count: 2, donated: true }),
];

/** Lots for the lists: some on hold, some called, one with more tags than a page has lines. */
export const LIST_LOTS: readonly PaperLot[] = [
  ...HARD_LOTS,
  paperLot('16', {
    ...{ sellerNo: 2, goodsName: 'Bobcat', exportTag: true, count: 3, tags: intactTags(201, 2) },
    holds: [
      'Lot 16 has 3 pieces and 2 good export tags: have the agency’s officer attach 1 more, then enter its number.',
    ],
  }),
  // Every second number only, so that none of them runs on into the next.
  paperLot('17', {
    ...{ sellerNo: 2, goodsName: 'River otter', exportTag: true, count: 90 },
    tags: intactTags(1001, 180).filter((_, at) => at % 2 === 0),
  }),
  paperLot('18', { sellerNo: 2, outcome: sold('112.75', '1353.00', 10) }),
  paperLot('19', { sellerNo: 2, by: 'lot', outcome: sold('41.50', '41.50', 11), count: 4 }),
  paperLot('20', { sellerNo: 3, outcome: { kind: 'passed', priceCents: null, amountCents: null, buyerNo: null } }),
  paperLot('21', { sellerNo: 3, outcome: { kind: 'withdrawn', priceCents: null, amountCents: null, buyerNo: null } }),
  paperLot('22', { sellerNo: 3, outcome: { ...unsold('9.25'), kind: 'bought_back' } }),
  paperLot('23', { sellerNo: 3, outcome: { ...unsold('8.75'), kind: 'unpaid', buyerNo: 10 } }),
  ...Array.from({ length: 36 }, (_, at) =>
    paperLot(String(400 + at), { sellerNo: 4, size: 'M', grade: 'II', section: 'Basin', minimumCents: money('7.25') }),
  ),
];

/** A price that nobody pays. */
function unsold(price: string) {
  return { priceCents: money(price), amountCents: null, buyerNo: null };
}

function sold(price: string, amount: string, buyerNo: number): PaperLot['outcome'] {
  return { kind: 'sold', priceCents: money(price), amountCents: money(amount), buyerNo };
}

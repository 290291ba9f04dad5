/** What is done at each station over a large book: its pages, and its acts with what is read again after them. */
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { bigLotNo } from '#tests/support/big-folder.ts';
import { bobcatTag } from '#tests/support/hall.ts';

/** What of the book the acts are about. */
export interface Ground {
  /** How many lots there are, and how many of them were called. */
  readonly lots: number;
  readonly called: number;
  /** A lot of {@link BUYER}. */
  readonly bought: { readonly lotNo: string; readonly pieces: number };
  /** The row of a lot that waits for its tags. */
  readonly taggedLotId: number;
}

export interface Act {
  readonly what: string;
  readonly command: string;
  readonly station: string;
  /** `before` is what the act before it gave. */
  readonly input: (ground: Ground, before: Readonly<Record<string, unknown>>) => object;
  /** What the stations that are open read again. */
  readonly again: readonly string[];
}

export interface Station {
  readonly name: string;
  readonly pages: readonly string[];
  readonly acts: readonly Act[];
}

export const SELLER = 17;
export const BUYER = 3;
const BLOCK = ['/api/views/block', '/api/views/board', '/payout', '/payout/balance', '/till', '/prices', '/'];
const TILL = ['/till', `/till/${BUYER}`, '/payout'];
const PAYOUT = ['/payout', `/payout/${SELLER}`, '/payout/balance', '/payout/kept', '/payout/after'];

/** In the order of the day: goods come in, are called, are paid and handed over, and the sellers are settled with. */
export const STATIONS: readonly Station[] = [
  {
    name: 'Intake',
    pages: ['/intake', `/intake/seller/${SELLER}`, '/intake/lot/12', '/intake/holds', '/intake/tickets'],
    acts: [
      {
        ...{ what: 'a lot in', command: 'lot.add', station: 'intake' },
        input: () => ({ saleId: 1, sellerNo: SELLER, goods: 'muskrat', count: '3' }),
        again: [`/intake/seller/${SELLER}`, '/intake', '/payout', '/api/views/block'],
      },
      {
        ...{ what: 'a lot of goods with a season limit in', command: 'lot.add', station: 'intake' },
        input: () => ({ saleId: 1, sellerNo: SELLER, goods: 'raccoon', count: '3' }),
        again: [`/intake/seller/${SELLER}`],
      },
      {
        ...{ what: 'the tag of a lot', command: 'tags.set', station: 'intake' },
        input: ({ taggedLotId }) => ({ lotId: taggedLotId, tags: [bobcatTag(1)] }),
        again: ['/intake', '/intake/holds'],
      },
    ],
  },
  {
    name: 'Block',
    pages: ['/block', '/block/left', '/board', '/board/seller?no=17'],
    acts: [
      {
        ...{ what: 'a hammer price', command: 'outcome.record', station: 'block' },
        input: ({ called }) => ({
          ...{ saleId: 1, lotNo: bigLotNo(called + 1), kind: 'sold', price: '12.25', buyerNo: BUYER },
          answered: QUESTIONS,
        }),
        again: BLOCK,
      },
      {
        ...{ what: 'the hammer price undone', command: 'outcome.reopen', station: 'block' },
        input: (_, { lotId, outcomeId }) => ({ lotId, replacesId: outcomeId, reason: 'misheard' }),
        again: BLOCK,
      },
      {
        ...{ what: 'a lot sent to the end', command: 'lot.skip', station: 'block' },
        input: ({ called }) => ({ saleId: 1, lotNo: bigLotNo(called + 2) }),
        again: ['/api/views/block'],
      },
    ],
  },
  {
    name: 'Till',
    pages: [
      ...['/till', `/till/${BUYER}`, `/till/${BUYER}/invoice`, `/till/${BUYER}/hand-over`, `/till/${BUYER}/record`],
      ...[`/till/${BUYER}/details`, '/till/drawer'],
    ],
    acts: [
      {
        ...{ what: 'a payment', command: 'payment.record', station: 'till' },
        input: () => ({
          ...{ saleId: 1, direction: 'in', buyerNo: BUYER, method: 'check', amount: '9999999.00' },
          answered: ['more_than_owed'],
        }),
        again: TILL,
      },
      {
        ...{ what: 'an invoice issued', command: 'invoice.issue', station: 'till' },
        input: () => ({ saleId: 1, buyerNo: BUYER }),
        again: [`/till/${BUYER}/invoice`, ...TILL],
      },
      {
        ...{ what: 'a lot handed over', command: 'handover.record', station: 'till' },
        input: ({ bought: { lotNo, pieces } }) => ({
          ...{ saleId: 1, buyerNo: BUYER, lots: [lotNo], pieces: String(pieces), takenBy: 'Dot' },
        }),
        again: [`/till/${BUYER}/hand-over`, ...TILL],
      },
    ],
  },
  {
    name: 'Payout',
    pages: [
      ...['/payout', `/payout/${SELLER}`, '/payout?find=ada', '/payout/checks', '/payout/balance'],
      ...['/payout/balance?why=sheets&page=3', '/payout/kept', '/payout/after'],
    ],
    acts: [
      {
        ...{ what: 'a charge', command: 'charge.add', station: 'payout' },
        input: () => ({ saleId: 1, sellerNo: SELLER, kind: 'advance', amount: '10.00', how: 'deducted' }),
        again: PAYOUT,
      },
      {
        ...{ what: 'the sale taken to settling', command: 'sale.stage', station: 'office' },
        // One lot waits for its tag, two came in at Intake, and the hammer price was undone.
        input: ({ lots, called }) => ({ saleId: 1, stage: 'settling', reason: '', left: lots - called + 3 }),
        again: PAYOUT,
      },
      {
        ...{ what: 'a settlement issued', command: 'settlement.issue', station: 'payout' },
        input: () => ({ saleId: 1, sellerNo: SELLER, answered: ['lots_not_called'] }),
        again: PAYOUT,
      },
      {
        ...{ what: 'a seller paid', command: 'payment.record', station: 'payout' },
        input: () => ({ saleId: 1, direction: 'out', sellerNo: SELLER, method: 'cash', amount: '1.00' }),
        again: PAYOUT,
      },
    ],
  },
  { name: 'Sale', pages: ['/', '/sale/terms', '/sale/goods', '/sale/next', '/sale/association'], acts: [] },
  {
    name: 'Prices',
    pages: ['/prices', '/prices/raccoon', '/prices/mine', '/prices/report'],
    acts: [],
  },
  {
    name: 'Office',
    pages: [
      '/office',
      '/office/log',
      '/office/people?find=ada',
      '/office/workers',
      '/office/prices',
      '/office/network',
    ],
    acts: [],
  },
];

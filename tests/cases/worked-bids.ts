/** Sales of bids as they were worked by hand: what is entered, at the door or in the browser, and what has to come out. */
import type { Book } from '#db/book/open.ts';
import { calledLots } from '#db/outcome/called.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { formatMoney } from '#lib/money/money.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { writtenHall } from '#tests/db/support/written-hall.ts';
import { GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

interface File {
  /** The book's file; without one the book is in memory. */
  readonly file?: string;
}

/** A written sale of twelve lots: 1 to 4 and 10 are seller 1's, the others seller 2's; 5 is castor by the ounce. */
export function twelveLots(options: File = {}) {
  const hall = writtenHall(options);
  const { must, lot, saleId } = hall;
  lot(1, '10');
  lot(1, '4', '6.00');
  lot(1, '3', '8.00');
  lot(1, '5', '9.00');
  must('lot.add', { saleId, sellerNo: 2, goods: 'castor', weight: '7.35' });
  for (const count of ['2', '6', '1', '8']) lot(2, count);
  lot(1, '2');
  for (const count of ['3', '2']) lot(2, count);
  must('sale.stage', { saleId, stage: 'selling', reason: '' });
  return hall;
}

export interface BidSheet {
  readonly buyerNo: number;
  /** The time on the sheet, of the day of the sale. */
  readonly handedIn: string;
  /** `lot price`. */
  readonly bids: readonly string[];
}

/**
 * In the order of typing. Bids on lots 1 and 8 tie with buyer 11's, whose sheet came five minutes before buyer 10's;
 * buyer 14's came with buyer 10's. 8.50 on lot 9 belongs to lot 8, and 75.00 was meant as 7.50.
 */
export const SHEETS = {
  ten: {
    buyerNo: 10,
    handedIn: '09:10',
    bids: ['1 7.25', '2 6.00', '3 7.00', '4 8.00', '5 3.25', '6 9.00', '7 7.00', '8 8.50', '9 5.00', '10 9.00'],
  },
  eleven: {
    buyerNo: 11,
    handedIn: '09:05',
    bids: ['1 7.25', '3 7.50', '5 3.50', '6 8.00', '9 8.50', '12 75.00'],
  },
  twelve: { buyerNo: 12, handedIn: '09:40', bids: ['10 9.50'] },
  thirteen: { buyerNo: 13, handedIn: '09:45', bids: ['11 10.00'] },
  fourteen: { buyerNo: 14, handedIn: '09:10', bids: ['2 6.00'] },
  /** Both are typed after the closing at 12:00; this one also came after it. */
  late: { buyerNo: 14, handedIn: '12:05', bids: ['7 12.00'] },
  inTime: { buyerNo: 14, handedIn: '11:50', bids: ['12 11.00'] },
} as const satisfies Readonly<Record<string, BidSheet>>;

/** Worked by hand: what became of every bid, lot, buyer and seller of the twelve lots. */
export const WRITTEN = {
  ends: [
    ...['10 1 outbid', '10 2 won', '10 3 outbid', '10 4 below the minimum', '10 5 outbid', '10 6 retracted'],
    ...['10 7 won', '10 8 outbid', '10 9 won', '10 10 won'],
    ...['11 1 won', '11 3 won', '11 5 won', '11 6 won', '11 8 won', '11 12 retracted'],
    ...['12 10 retracted', '13 11 won', '14 2 outbid', '14 7 late', '14 12 won'],
  ],
  lots: {
    1: '11 72.50', // 10 at 7.25
    2: '10 24.00', // 4 at 6.00
    3: '11 22.50', // 3 at 7.50, accepted
    4: '- 0.00', // kept
    5: '11 25.73', // 7.35 oz at 3.50 is 25.725, half up
    6: '11 16.00', // 2 at 8.00
    7: '10 42.00', // 6 at 7.00
    8: '11 8.50',
    9: '10 40.00', // 8 at 5.00
    10: '10 18.00', // 2 at 9.00
    11: '13 30.00', // 3 at 10.00
    12: '14 22.00', // 2 at 11.00
  },
  // Sum 8: 5 % of each lot, 6.5 % of all. 11: 3.63 + 1.13 + 1.29 + 0.80 + 0.43; 152.51 is taxed 9.91315.
  invoices: [
    '10: 124.00 6.20 8.46 138.66',
    '11: 145.23 7.28 9.91 162.42',
    '12: 0.00 0.00 0.00 0.00',
    '13: 30.00 1.50 2.05 33.55',
    '14: 22.00 1.10 1.50 24.60',
  ],
  // Sums 3 to 6. Seller 1: 4.35 + 1.44 + 1.35 + 1.08, five lots at 0.25, 1.00 and 2 % of 45.00 for the no-sale.
  // Seller 2: 1.54 + 0.96 + 2.52 + 0.51 + 2.40 + 1.80 + 1.32, seven lots at 0.25.
  nets: ['1: 137.00 8.22 120.63', '2: 184.23 11.05 166.43'],
} as const;

/** What the book says of the same. */
export function cameOut(book: Book, saleId: number) {
  const facts = saleFacts(book, saleId);
  const money = (sums: readonly Parameters<typeof formatMoney>[0][]) =>
    sums.map((cents) => formatMoney(cents)).join(' ');
  return {
    lots: Object.fromEntries(
      calledLots(book, saleId, 100).map((one) => [one.lotNo, `${one.buyerNo ?? '-'} ${formatMoney(one.amountCents)}`]),
    ),
    invoices: buyerAccounts(facts).map(({ buyerNo, invoice: { amountCents, premiumCents, taxCents, totalCents } }) => {
      return `${buyerNo}: ${money([amountCents, premiumCents, taxCents, totalCents])}`;
    }),
    nets: settleSale(facts).map(({ sellerNo, grossCents, commissionCents, netCents }) => {
      return `${sellerNo}: ${money([grossCents, commissionCents, netCents])}`;
    }),
  };
}

/** A called sale of five lots of seller 1; lot 2 has a minimum of 10.00. Buyer 13 is Eli Frost. No bid is left yet. */
export function fiveLots(options: File = {}): Hall {
  const hall = openHall(options);
  const { must, saleId } = hall;
  const personId = must('person.enrol', { name: 'Eli Frost' }).personId;
  must('buyer.register', { saleId, buyerNo: 13, personId, cleared: true });
  for (const [count, minimum] of [
    ['10', ''],
    ['4', '10.00'],
    ['2', ''],
    ['5', ''],
    ['3', ''],
  ] as const)
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count, minimum });
  return hall;
}

/** In the order of typing: two equal ones, one below the minimum, one under the room, one above it. Buyer 11's list came first. */
export const LEFT = [
  { lotNo: '1', buyerNo: 13, price: '16.00', handedIn: '09:30' },
  { lotNo: '1', buyerNo: 11, price: '16.00', handedIn: '09:00' },
  { lotNo: '2', buyerNo: 11, price: '9.00' },
  { lotNo: '3', buyerNo: 13, price: '12.00' },
  { lotNo: '5', buyerNo: 11, price: '18.00' },
] as const;

/**
 * Worked by hand. Lot 5 went to 12.00 in the room, and a step above it is 12.25. 160.00 + 40.00 + 28.00 + 95.00 + 36.75;
 * 6 % of each 9.60 + 2.40 + 1.68 + 5.70 + 2.21 (2.205, half up); 5 × 0.25; 5.00.
 */
export const CALLED = {
  lots: { 1: '11 160.00', 2: '10 40.00', 3: '10 28.00', 4: '11 95.00', 5: '11 36.75' },
  // 10: 68.00, 5 % of each lot is 2.00 + 1.40, and 71.40 is taxed 4.641. 11: 8.00 + 4.75 + 1.84, and 306.34 is taxed 19.9121.
  invoices: [
    '10: 68.00 3.40 4.64 76.04',
    '11: 291.75 14.59 19.91 326.25',
    '12: 0.00 0.00 0.00 0.00',
    '13: 0.00 0.00 0.00 0.00',
  ],
  nets: ['1: 359.75 21.59 331.91'],
  became: [
    '11 1 took the lot at 16.00',
    '11 2 outbid: sold at 10.00',
    '11 5 took the lot at 12.25',
    '13 1 an equal bid took it at 16.00',
    '13 3 outbid: sold at 14.00',
  ],
} as const;

/**
 * A guest sold 10 raccoons at 20.00 at a sale that is being settled; the next one is held on the same day. By hand
 * 200.00 − 20.00 (10 %) − 0.25 − 5.00 = 174.75; a member pays 12.00 (6 %): 182.75.
 */
export function twoOpenSales(options: File = {}) {
  const hall = openHall(options);
  const { must, saleId } = hall;
  const personId = must('person.enrol', { name: 'Dot Ebner' }).personId;
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId }] });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '20.00', buyerNo: 10 });
  must('sale.stage', { saleId, stage: 'settling', reason: '' });
  const next = must('sale.plan', { sale: { ...SALE, name: 'Evening Sale' }, goods: GOODS }).saleId;
  must('sale.stage', { saleId: next, stage: 'intake', reason: '' });
  must('seller.register', { saleId: next, sellerNo: 2, partners: [{ personId }] });
  return { ...hall, next, personId };
}

import { type SaleRow, saleById } from '#db/book/find.ts';
import { buyerFile } from '#db/buyer/files.ts';
import { drawerEntries } from '#db/drawer/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { payoutSellers, personIdOf } from '#db/settlement/payout.ts';
import { type BuyerFile, buyerAccounts } from '#lib/buyer/buyer.ts';
import { isOpen } from '#lib/drawer/drawer.ts';
import { formatMoney, negate } from '#lib/money/money.ts';
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
import { accepted, bobcatTag, GOODS, type Hall, openHall, SALE } from './hall.ts';

/** Brings a sale to its close as the treasurer would: everything called, issued, paid, and the drawer put away. */

type Giving = Pick<Hall, 'book' | 'give' | 'must'>;

/** From the stage “selling” or “settling” to “closed”. Lots that were not called are passed, or withdrawn where they are on hold. */
export function closeSale(hall: Giving, saleId: number): void {
  const { must, give, book } = hall;
  callTheRest(hall, saleId);
  give('sale.stage', { saleId, stage: 'settling', reason: '' });
  for (const { sellerNo } of saleFacts(book, saleId).sellers) {
    if (!give('settlement.issue', { saleId, sellerNo }).ok) {
      give('settlement.correct', { saleId, sellerNo, reason: 'put right' });
    }
  }
  payBuyers(hall, saleId);
  paySellers(hall, saleId);
  if (isOpen(drawerEntries(book, saleId)))
    must('drawer.record', { saleId, kind: 'closed', note: 'a test counts nothing' });
  // Lots that nobody fetched stay on the tables.
  must('sale.stage', { saleId, stage: 'closed', reason: '', answered: [...CLOSE_QUESTIONS] });
}

function callTheRest({ give, book }: Giving, saleId: number): void {
  const { lots, outcomes } = saleFacts(book, saleId);
  const called = new Set(outcomes.map(({ lotNo }) => lotNo));
  if (lots.every(({ lotNo }) => called.has(lotNo))) return;
  give('sale.stage', { saleId, stage: 'selling', reason: 'lots are left' });
  for (const { lotNo } of lots) {
    if (called.has(lotNo)) continue;
    const passed = give('outcome.record', { saleId, lotNo, kind: 'passed' }, { station: 'block' });
    if (!passed.ok) give('outcome.record', { saleId, lotNo, kind: 'withdrawn' }, { station: 'block' });
  }
}

function payBuyers({ must, give, book }: Giving, saleId: number): void {
  for (const { buyerNo, owingCents } of buyerAccounts(saleFacts(book, saleId))) {
    give('invoice.issue', { saleId, buyerNo });
    if (owingCents === 0) continue;
    const direction = owingCents > 0 ? 'in' : 'out';
    const amount = formatMoney(owingCents > 0 ? owingCents : negate(owingCents));
    must('payment.record', { saleId, direction, buyerNo, method: 'cash', amount, answered: ['more_than_drawer'] });
  }
}

function paySellers({ must, book }: Giving, saleId: number): void {
  const sale = saleById(book, saleId);
  for (const { sellerNo, accounts } of sale ? payoutSellers(book, sale) : []) {
    for (const { personId: ref, owingCents } of accounts) {
      if (owingCents === 0) continue;
      const direction = owingCents > 0 ? 'out' : 'in';
      const amount = formatMoney(owingCents > 0 ? owingCents : negate(owingCents));
      const personId = personIdOf(book, saleId, ref);
      must('payment.record', {
        saleId,
        direction,
        sellerNo,
        personId: personId ?? null,
        method: 'cash',
        amount,
        answered: ['more_than_drawer'],
      });
    }
  }
}

/** Two sales of two years that run at once, so that pieces go home from one and come back to the other. */
export function twoSales(): Hall {
  const hall = openHall();
  const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' };
  const saleId = hall.must('sale.plan', { sale, goods: GOODS }).saleId;
  hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
  hall.must('seller.register', { saleId, partners: [{ personId: 1 }] });
  hall.must('buyer.register', { saleId, buyerNo: 10, personId: 2, cleared: true });
  hall.must('sale.stage', { saleId, stage: 'selling', reason: '' });
  return hall;
}

/** Lots 1 to 4 of the hall's sale sold to buyers 10 and 11, so that the till has something to do from the first act on. */
export function soldSale(): Hall {
  const hall = twoSales();
  for (const count of ['3', '11', '3', '11']) hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count });
  for (const [at, buyerNo] of [10, 11, 10, 11].entries()) {
    hall.must('outcome.record', { saleId: 1, lotNo: String(at + 1), kind: 'sold', price: '7.25', buyerNo });
  }
  return hall;
}

/** A day at the till with what its papers find hard: partners, weights, tags, names with marks, a correction. */

/**
 * Buyer 30, Łucja Żółć, has 12 raccoons at 7.25, 7.35 oz of castor at 2.05, two bobcats at 125.00 and ten raccoons for
 * 101.30 the lot. Premium 5 %, tax 6.5 %.
 */
export function buyersDay(): Hall & { readonly file: () => BuyerFile } {
  const hall = openHall();
  const { book, saleId, must } = hall;
  must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow', region: 'US-WY' });
  const licence = { licenceNo: 'T-77', licenceRegion: 'US-MT', licenceExpires: '2026-12-31' };
  const address = { street: '3 Cold Fork Road', city: 'Íñigo Creek', region: 'MT', postcode: '59001' };
  const zoe = must('person.enrol', { name: 'Zoë Ærøe', ...address, ...licence }).personId;
  const lucja = must('person.enrol', { name: 'Łucja Żółć', street: '9 Mill Lane', city: 'Ğülşen' }).personId;
  const partners = [
    { personId: 1, parts: 1 },
    { personId: zoe, parts: 2 },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners });
  const shown = { licenceNo: 'FB-31', licenceRegion: 'US-WY', licenceExpires: '2026-06-30' };
  must('buyer.register', { saleId, buyerNo: 30, personId: lucja, cleared: true, ...shown });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '12', size: 'XL', grade: 'I', section: 'Cold Fork' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35', section: 'Ridge' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', by: 'lot', count: '10' });
  for (const [lotNo, price] of Object.entries({ 1: '7.25', 2: '2.05', 3: '125.00', 4: '101.30' })) {
    must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo: 30, answered: [...QUESTIONS] });
  }
  const file = () => {
    const found = buyerFile(book, saleId, 30);
    if (!found) throw new Error('buyer 30 is not there');
    return found;
  };
  return { ...hall, file };
}

/** A sale whose money changes hands late in the evening of a day that is over already in UTC, or not yet there. */

export interface Evening {
  readonly zone: string;
  /** The instant at which everything is entered, ISO 8601 in UTC. */
  readonly at: string;
  /** The day there. */
  readonly day: string;
}

// 11 at night of the year's last day. The distances from UTC are those of the tz database in winter: Hawaii 10 hours,
// Chicago 6, Kiritimati 14 hours ahead.
export const EVENINGS: readonly Evening[] = [
  { zone: 'Pacific/Honolulu', at: '2027-01-01T09:00:00.000Z', day: '2026-12-31' },
  { zone: 'America/Chicago', at: '2027-01-01T05:00:00.000Z', day: '2026-12-31' },
  { zone: 'Pacific/Kiritimati', at: '2026-12-30T12:00:00.000Z', day: '2026-12-31' },
  { zone: 'UTC', at: '2026-12-31T23:00:00.000Z', day: '2026-12-31' },
];

export interface EveningHall extends Pick<Hall, 'book' | 'give' | 'must' | 'saleId'> {
  readonly sale: SaleRow;
}

/** Checks written, one reissued, sheets corrected, an invoice, payments and the closing: all of them at that instant. */
export function eveningHall({ zone, at }: Evening, file?: string): EveningHall {
  const hall = openHall(file === undefined ? {} : { file });
  const { book, saleId } = hall;
  hall.must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Lantern Ridge', timeZone: zone });
  const give: Hall['give'] = (command, input, over = {}) => hall.give(command, input, { at, ...over });
  const must: Hall['must'] = (command, input, station = 'office') => accepted(give(command, input, { station }));
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '11', section: 'Prairie' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(1)], section: 'Prairie' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35', section: 'Foothills' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.75', buyerNo: 10 }, 'block');
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '80.00', buyerNo: 10 }, 'block');
  must('outcome.record', { saleId, lotNo: '3', kind: 'passed' }, 'block');
  must('invoice.issue', { saleId, buyerNo: 10 });
  must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '20.00' });
  must('settlement.issue', { saleId, sellerNo: null, seen: 1 });
  must('check.write', { saleId, sellerNo: null, seen: 1, firstNumber: 1041 });
  must('check.reissue', { checkId: 1, number: 1050, reason: 'lost in the post' });
  const misheard = { kind: 'sold', price: '8.75', buyerNo: 10, reason: 'misheard' } as const;
  must('outcome.correct', { lotId: 1, replacesId: 1, ...misheard }, 'block');
  must('settlement.correct', { saleId, sellerNo: 1, reason: 'the price of lot 1 was misheard' });
  must('invoice.issue', { saleId, buyerNo: 10 });
  closeSale({ book, give, must }, saleId);
  const sale = saleById(book, saleId);
  if (!sale) throw new Error('the sale is not in the book');
  return { book, saleId, sale, give, must };
}

/**
 * Lot 1 of seller 1 brings 100.00 from buyer 10, lot 2 of seller 2 brings 200.00 from buyer 11; each bill has 5 % premium
 * and 6.5 % tax: 111.83 and 223.65. Both pay by check. Seller 1 is a member and gets 100.00 − 6.00 − 0.25 − 5.00 = 88.75
 * by check 501; seller 2 is one too, by dues of 30.00 in cash that lie outside the drawer, and gets
 * 200.00 − 12.00 − 0.25 − 5.00 = 182.75 by check 502.
 */
export function paidHall(file?: string): Hall {
  const hall = openHall(file === undefined ? {} : { file });
  const { saleId, must } = hall;
  must('person.enrol', { name: 'Eve Frost' });
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 4 }] });
  must('dues.take', { saleId, personId: 4, sellerNo: null, how: 'cash', amount: '30.00' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '20' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '10.00', buyerNo: 11 });
  const check = { saleId, direction: 'in', method: 'check' } as const;
  must('payment.record', { ...check, buyerNo: 10, amount: '111.83', reference: '7001' });
  must('payment.record', { ...check, buyerNo: 11, amount: '223.65', reference: '88' });
  must('settlement.issue', { saleId, sellerNo: null, seen: 2 });
  must('check.write', { saleId, sellerNo: null, firstNumber: 501, seen: 2 });
  return hall;
}

/** The payments of buyers 10 and 11. */
export const [OF_TEN, OF_ELEVEN] = [2, 3] as const;

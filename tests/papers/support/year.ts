/** Two sales of 2026 and one of 2027 in one book, with what a year finds hard: partners, a guest, an exempt buyer, New Year’s Eve. */
import type { Station } from '#db/book/command.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { accepted, GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

/** Eleven at night on December 31 in Denver, and one in the morning after it; in UTC both are of January 1. */
const LATE = '2027-01-01T06:00:00Z';
const AFTER_MIDNIGHT = '2027-01-01T08:00:00Z';

export interface YearHall extends Pick<Hall, 'book'> {
  readonly sales: { readonly late: number; readonly early: number; readonly next: number };
}

type Money = Omit<InputOf<'payment.record'>, 'method' | 'saleId'>;

/**
 * Ada sells as a member under numbers 1 and 4, Cal (two parts) and Gus, a guest, under number 2. Bea buys, Ilse Roth is
 * exempt. Premium 5 %, tax 6.5 %, number 5.00, lot 0.25.
 */
export function yearHall(file?: string): YearHall {
  const hall = openHall(file === undefined ? {} : { file });
  const { book, saleId: late } = hall;
  const at = <N extends CommandName>(moment: string, command: N, input: InputOf<N>, station: Station = 'office') =>
    accepted(hall.give(command, input, { at: moment, station }));
  const pay = (saleId: number, moment: string, money: Money) =>
    at(moment, 'payment.record', { saleId, method: 'cash', answered: ['more_than_owed'], ...money }).paymentId;
  hall.must('association.set', {
    ...{ name: 'Lantern Ridge Fur Harvesters', city: 'Lantern Ridge', timeZone: 'America/Denver' },
  });
  const gus = hall.must('person.enrol', { name: 'Gus Hale', street: '8 Kettle Lane', city: 'Cold Kettle' }).personId;
  const ilse = hall.must('person.enrol', { name: 'Ilse Roth' }).personId;

  const sellTo = (saleId: number, sellerNo: number, { count, price, buyerNo }: Sold) => {
    const { lotNo } = hall.must('lot.add', { saleId, sellerNo, goods: 'raccoon', count });
    hall.must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo, answered: [...QUESTIONS] });
  };
  const settle = (saleId: number, moment: string) => {
    at(moment, 'sale.stage', { saleId, stage: 'settling', reason: '' });
    at(moment, 'settlement.issue', { saleId, sellerNo: null, seen: saleId === late ? 2 : 1 });
  };
  const plan = (name: string, day: string) => {
    const { saleId } = hall.must('sale.plan', { sale: { ...SALE, name, held_on: day }, goods: GOODS });
    hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
    hall.must('seller.register', { saleId, sellerNo: 4, partners: [{ personId: 1 }] });
    hall.must('buyer.register', { saleId, buyerNo: 20, personId: 2, cleared: true });
    hall.must('sale.stage', { saleId, stage: 'selling', reason: '' });
    return saleId;
  };

  const partners = [
    { personId: 3, parts: 2 },
    { personId: gus, parts: 1 },
  ];
  hall.must('seller.register', { saleId: late, sellerNo: 2, partners });
  const exempt = { taxExempt: true, exemptNo: 'EX-77' };
  hall.must('buyer.register', { saleId: late, buyerNo: 13, personId: ilse, cleared: true, ...exempt });
  sellTo(late, 1, { count: '10', price: '10.00', buyerNo: 10 });
  sellTo(late, 2, { count: '10', price: '10.01', buyerNo: 10 });
  sellTo(late, 1, { count: '20', price: '5.00', buyerNo: 13 });
  const adjustment = { kind: 'adjustment', amount: '2.50', how: 'deducted', note: 'tags' } as const;
  hall.must('charge.add', { saleId: late, sellerNo: 1, ...adjustment });
  settle(late, '2026-02-28T23:00:00Z');
  const out = { direction: 'out' } as const;
  const wrong = pay(late, '2026-02-28T23:10:00Z', { ...out, sellerNo: 1, amount: '50.00' });
  at('2026-02-28T23:11:00Z', 'payment.void', { paymentId: wrong, reason: 'the wrong seller' });
  pay(late, '2026-02-28T23:12:00Z', { ...out, sellerNo: 1, amount: '180.00' });
  pay(late, '2026-03-01T20:00:00Z', { ...out, sellerNo: 2, personId: gus, amount: '28.28' });

  const early = plan('Early Winter Sale', '2026-12-05');
  sellTo(early, 4, { count: '5', price: '20.00', buyerNo: 20 });
  settle(early, '2026-12-06T01:00:00Z');
  pay(early, LATE, { ...out, sellerNo: 4, amount: '88.75' });
  pay(late, AFTER_MIDNIGHT, { ...out, sellerNo: 2, personId: 3, amount: '56.56' });

  // Bea pays more than 10,000.00 in cash in three payments, Cal exactly so much in one.
  const into = { direction: 'in' } as const;
  pay(late, '2026-02-28T22:00:00Z', { ...into, buyerNo: 10, amount: '4000.00' });
  const misread = pay(late, '2026-02-28T22:01:00Z', { ...into, buyerNo: 10, amount: '9000.00' });
  at('2026-02-28T22:02:00Z', 'payment.void', { paymentId: misread, reason: 'misread' });
  at('2026-02-28T22:03:00Z', 'payment.record', {
    ...{ saleId: late, ...into, buyerNo: 10, method: 'check', amount: '5000.00', answered: ['more_than_owed'] },
  });
  pay(late, '2026-02-28T22:04:00Z', { ...into, buyerNo: 11, amount: '10000.00' });
  pay(early, '2026-12-06T02:00:00Z', { ...into, buyerNo: 20, amount: '4000.00' });
  pay(early, LATE, { ...into, buyerNo: 20, amount: '2000.01' });

  const next = plan('Next Winter Sale', '2027-02-27');
  sellTo(next, 4, { count: '5', price: '20.00', buyerNo: 20 });
  settle(next, '2027-02-28T01:00:00Z');
  return { book, sales: { late, early, next } };
}

interface Sold {
  readonly count: string;
  readonly price: string;
  readonly buyerNo: number;
}

/** The acts of a long day, by number: a lot comes in, brings a bid, is sold, and somebody's address is put right. */
import type { Envelope } from '#db/book/door.ts';

const WORKERS = ['Ada', 'Bea', 'Cy'] as const;
const AT = '2026-02-28T10:00:00Z';

/** The same number is always the same act under the same key. */
export function actNo(number: number): Envelope {
  const lotNo = String(Math.ceil(number / 4));
  const lot = { saleId: 1, lotNo };
  const [command, station, input] = (
    [
      ['person.amend', 'till', { personId: 1, name: 'Ada Birch', street: `${number} Mill Road` }],
      ['lot.add', 'intake', { ...lot, sellerNo: 1, goods: 'raccoon', count: '3', note: `lot of act ${number}` }],
      ['bid.leave', 'till', { ...lot, buyerNo: 11, kind: 'left', price: '6.50' }],
      ['outcome.record', 'block', { ...lot, kind: 'sold', price: '7.25', buyerNo: 10 }],
    ] as const
  )[number % 4] ?? ['', 'office', {}];
  return { command, station, input, worker: WORKERS[number % WORKERS.length] ?? '', at: AT, key: `act-${number}` };
}

/** A sale whose money changes hands late in the evening of a day that is over already in UTC, or not yet there. */
import { type SaleRow, saleById } from '#db/queries/find.ts';
import { closeSale } from './close-sale.ts';
import { accepted, bobcatTag, type Hall, openHall } from './hall.ts';

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

/** A small book on disk in which every command that fills a table was given, closed and whole. */
import { STATIONS } from '#db/command.ts';
import { STAGES } from '#lib/stage.ts';
import { bobcatTag, GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** Text that stands in the book in one place, for finding it among the bytes. */
export const MARKS = { note: 'pale flanks', partner: 'Zoë Quist', reason: 'misheard the price' } as const;

/** The form of a passphrase's hash; nobody's passphrase. */
const HASH = `$scrypt$ln=14,r=8,p=1$${'A'.repeat(22)}$${'A'.repeat(43)}`;

/** Makes the book; returns its file. */
export function fullBook(): string {
  const file = tempFile();
  const { book, saleId, must } = openHall({ file, stage: 'selling' });
  must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow' });
  const zoe = must('person.enrol', { name: MARKS.partner }).personId;
  const sharing = [
    { personId: 1, parts: 2 },
    { personId: zoe, parts: 1 },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners: sharing, broughtBy: '' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '13', note: MARKS.note, size: 'XL', grade: 'I' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'castor', weight: '7.35', minimum: '2.00' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '4' });
  const left = must('bid.leave', { saleId, lotNo: '1', buyerNo: 11, kind: 'left', price: '6.00' }).bidId;
  must('bid.retract', { bidId: left });
  const sold = must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const right = { kind: 'sold', price: '7.75', buyerNo: 10, reason: MARKS.reason } as const;
  must('outcome.correct', { lotId: sold.lotId, replacesId: sold.outcomeId, ...right });
  must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
  must('outcome.record', { saleId, lotNo: '3', kind: 'sold', price: '125.00', buyerNo: 11 });
  const passed = must('outcome.record', { saleId, lotNo: '4', kind: 'passed' });
  must('outcome.reopen', { lotId: passed.lotId, replacesId: passed.outcomeId, reason: 'a bid as the hammer fell' });
  must('charge.add', { saleId, sellerNo: 2, kind: 'dues', amount: '25.00', how: 'deducted' });
  const dues = { amount: '25.00', how: 'cash', memberUntil: '2026-12-31' } as const;
  must('dues.take', { saleId, personId: zoe, sellerNo: null, ...dues }, 'intake');
  must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'check', amount: '50.00', reference: '1041' });
  must('settlement.issue', { saleId, sellerNo: 2 }, 'payout');
  must('check.write', { saleId, sellerNo: 2, firstNumber: 1001 }, 'payout');
  closeEmptySale(must);
  must('drawer.record', { saleId, kind: 'opened', pieces: [{ denomination: '20', pieces: '5' }] });
  const more = { amount: '300.00', answered: ['more_than_owed'] } as const;
  must('payment.record', { saleId, direction: 'in', buyerNo: 11, method: 'cash', ...more });
  must('drawer.record', { saleId, kind: 'counted', pieces: [{ denomination: '20', pieces: '20' }], checks: '0' });
  must('invoice.issue', { saleId, buyerNo: 11 });
  must('handover.record', { saleId, buyerNo: 11, lots: ['3'], pieces: '2', takenBy: 'Cal Dunn' });
  must('prices.import', {
    file: 'old.csv',
    rows: [[2, { season: '1998-99', goods: 'mink', count: '4', price: '9.50' }]],
  });
  must('prices.fewest', { fewest: 2 });
  must('network.set', { hosts: ['hall.test'], plainStaff: true, reason: 'the certificate is not made yet' });
  must('member.code', { personId: zoe, codeHash: 'a'.repeat(64), minutes: 10 });
  must('member.enter', { codeHash: 'a'.repeat(64) });
  // Last but one, as from here on the door asks who is at which station.
  must('worker.add', { name: 'Ada', stations: [...STATIONS], passphraseHash: HASH });
  must('person.amend', { personId: zoe, name: MARKS.partner, city: 'Cold Fork' });
  book.close();
  return file;
}

/** A sale to which nobody came, so that the book knows a closing. */
function closeEmptySale(must: Hall['must']): void {
  const { saleId } = must('sale.plan', {
    sale: { ...SALE, name: 'Snowed-in Sale', held_on: '2025-01-18' },
    goods: GOODS,
  });
  for (const stage of STAGES.slice(1)) must('sale.stage', { saleId, stage, reason: '' });
}

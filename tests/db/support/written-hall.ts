/** A sale of written bids in a small hall, worked by the clock. */

import { saleById } from '#db/book/find.ts';
import type { CommandName, InputOf, ValueOf } from '#db/commands.ts';
import { writtenView } from '#db/outcome/written-view.ts';
import { accepted, GOODS, openHall, SALE } from '#tests/support/hall.ts';

export const DAY = '2026-03-28';
/** `10:05` of the day of the sale, UTC. */
export const at = (time: string) => `${DAY}T${time}:00Z`;

/**
 * Sellers 1 (Ada) and 2 (Flo) are members; buyers 10 and 11 are cleared, 12 is Ada herself, 13 is not cleared, and 14
 * has a limit of 20.00. Raccoon brought 8.00 at the sale before.
 */
export function writtenHall(options: { readonly file?: string } = {}) {
  const hall = openHall(options);
  const { book, must, give } = hall;
  must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '8.00', buyerNo: 10 });
  const sale = { ...SALE, name: 'Written Sale', held_on: DAY, bidding: 'sealed' } as const;
  const { saleId } = must('sale.plan', { sale, goods: GOODS });
  must('sale.stage', { saleId, stage: 'intake', reason: '' });
  const enrol = (name: string) => must('person.enrol', { name, memberUntil: '2026-12-31' }).personId;
  const [dee, eli, flo] = [enrol('Dee Frost'), enrol('Eli Gray'), enrol('Flo Hale')];
  must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: flo }] });
  for (const [buyerNo, personId] of [
    [10, 2],
    [11, 3],
    [12, 1],
    [13, dee],
    [14, eli],
  ] as const)
    must('buyer.register', { saleId, buyerNo, personId, cleared: buyerNo !== 13 });
  must('buyer.amend', { saleId, buyerNo: 14, taxExempt: false, limit: '20.00' });
  /** Gives a command of the Block at a time of the day. */
  const when = <N extends CommandName>(time: string, command: N, input: InputOf<N>) =>
    give(command, input, { at: at(time), station: 'block' });
  const mustAt = <N extends CommandName>(time: string, command: N, input: InputOf<N>): ValueOf<N> =>
    accepted(when(time, command, input));
  const view = (time: string) => {
    const row = saleById(book, saleId);
    if (!row) throw new Error('The sale is gone.');
    return writtenView(book, row, at(time));
  };
  const lot = (sellerNo: number, count: string, minimum = '') =>
    must('lot.add', { saleId, sellerNo, goods: 'raccoon', count, minimum });
  return { ...hall, saleId, when, mustAt, view, lot };
}

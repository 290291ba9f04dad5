import { z } from 'zod';
import { decideCarry } from '#lib/buyer/decide-carry.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { decideSeen } from '#lib/decide-seen.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { rowId, seenCount } from '../inputs.ts';
import { type BuyerRow, personById, saleById } from '../queries/find.ts';
import { buyersOfSale, lastSaleWithBuyers } from '../queries/last-buyers.ts';
import { saveBuyer } from '../save/buyer-and-payment.ts';
import { saveParticulars } from '../save/person.ts';

const input = z.strictObject({
  saleId: rowId,
  /** The sale whose buyers come again; null for the newest earlier one that had buyers. */
  fromSaleId: rowId.nullable().default(null),
  /** How many buyers were seen to come again. */
  seen: seenCount,
});

/** Gives last year's buyers the numbers they had, in one act. Nobody is cleared by it: their papers are looked at first. */
export const buyersCarry = defineCommand({
  name: 'buyers.carry',
  summary: 'Registers the buyers of an earlier sale again under the same numbers, not cleared.',
  logLabel: 'Buyers of last year carried over',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, fromSaleId, seen }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no buyer can be added.', 'saleId');
    const from = fromSaleId ?? lastSaleWithBuyers(context.book, sale);
    if (fromSaleId !== null && (fromSaleId === saleId || !saleById(context.book, fromSaleId))) {
      return refuse('unknown', 'Choose an earlier sale of the book.', 'fromSaleId');
    }
    const earlier = from === undefined ? [] : buyersOfSale(context.book, from);
    const decided = decideCarry(earlier, buyersOfSale(context.book, saleId));
    if (!decided.ok) return decided;
    const { registered, numberTaken } = decided.value;
    const looked = decideSeen({ now: registered.length, seen, what: 'buyer' });
    if (!looked.ok) return looked;
    for (const one of registered) carry(context, saleId, one);
    const numbers = (rows: readonly BuyerRow[]) => rows.map(({ buyerNo }) => buyerNo);
    return accept({ registered: numbers(registered), numberTaken: numbers(numberTaken) });
  },
});

function carry(context: CommandContext, saleId: number, row: BuyerRow): void {
  const { buyerNo, personId } = row;
  const person = personById(context.book, personId);
  if (!person) throw new RangeError(`buyer ${buyerNo} is nobody`);
  saveParticulars(context, { saleId, personId }, { ...person, personId: person.ref });
  saveBuyer(context, { saleId, buyerNo, personId, ...factsOfRow(BUYER_FIELDS, row), cleared: false, clearedBy: '' });
}

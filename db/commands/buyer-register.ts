import { eq, max } from 'drizzle-orm';
import { z } from 'zod';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { factsOfSaid } from '#lib/field/fields.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { flag, partyNumber, rowId, shapeOf } from '../inputs.ts';
import { buyerByNumber, personById, saleById } from '../queries/find.ts';
import { saveBuyer } from '../save/buyer-and-payment.ts';
import { saveParticulars } from '../save/person.ts';
import { buyer } from '../schema/index.ts';

const input = z.strictObject({
  saleId: rowId,
  /** Null takes the next free number. */
  buyerNo: partyNumber.nullable().default(null),
  personId: rowId,
  ...shapeOf(BUYER_FIELDS),
  cleared: flag.default(false),
});

/** Gives a buyer number to a person, with the fur buyer's licence and whether they are cleared to buy. */
export const buyerRegister = defineCommand({
  name: 'buyer.register',
  summary: 'Gives a buyer number to a person.',
  logLabel: 'Buyer registered',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, personId, buyerNo: typedNo, cleared, ...fields }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no buyer can be added.', 'saleId');
    const person = personById(context.book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: find or enrol them first.', 'personId');
    const buyerNo = typedNo ?? nextBuyerNo(context, saleId);
    if (buyerByNumber(context.book, saleId, buyerNo)) {
      return refuse('taken', `Buyer number ${buyerNo} is taken: take the next free one.`, 'buyerNo');
    }
    if (fields.taxExempt && fields.exemptNo === '') {
      return refuse('missing', 'Enter the number of the exemption, as the certificate shows it.', 'exemptNo');
    }
    saveParticulars(context, { saleId, personId }, { ...person, personId: person.ref });
    const clearance = { cleared, clearedBy: cleared ? context.worker : '' };
    const facts = factsOfSaid(BUYER_FIELDS, fields);
    const buyerId = saveBuyer(context, { saleId, buyerNo, personId, ...facts, ...clearance });
    return accept({ buyerId, buyerNo });
  },
});

function nextBuyerNo(context: CommandContext, saleId: number): number {
  const found = context.book.db
    .select({ n: max(buyer.buyerNo) })
    .from(buyer)
    .where(eq(buyer.saleId, saleId))
    .get();
  return (found?.n ?? 0) + 1;
}

import { eq, max } from 'drizzle-orm';
import { z } from 'zod';
import { parseRegion } from '#lib/codes.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { amountOrNull, dateOrNull, flag, partyNumber, readByOrNull, rowId, text } from '../inputs.ts';
import { buyerByNumber, personById, saleById } from '../queries/find.ts';
import { saveParticulars } from '../save/person.ts';
import { saveBuyer } from '../save/seller.ts';
import { buyer } from '../schema/index.ts';

const input = z.strictObject({
  saleId: rowId,
  /** Null takes the next free number. */
  buyerNo: partyNumber.nullable().default(null),
  personId: rowId,
  licenceNo: text,
  licenceRegion: readByOrNull(parseRegion)
    .transform((region) => region ?? '')
    .default(''),
  licenceExpires: dateOrNull.default(null),
  taxExempt: flag.default(false),
  exemptNo: text,
  cleared: flag.default(false),
  limit: amountOrNull.default(null),
});

/** Gives a buyer number to a person, with the fur buyer's licence and whether they are cleared to buy. */
export const buyerRegister = defineCommand({
  name: 'buyer.register',
  summary: 'Gives a buyer number to a person.',
  logLabel: 'Buyer registered',
  stations: ['till', 'office'],
  input,
  run(scene, { saleId, personId, limit, buyerNo: typedNo, ...fields }) {
    const sale = saleById(scene.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no buyer can be added.', 'saleId');
    const person = personById(scene.book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: find or enrol them first.', 'personId');
    const buyerNo = typedNo ?? nextBuyerNo(scene, saleId);
    if (buyerByNumber(scene.book, saleId, buyerNo)) {
      return refuse('taken', `Buyer number ${buyerNo} is taken: take the next free one.`, 'buyerNo');
    }
    if (fields.taxExempt && fields.exemptNo === '') {
      return refuse('missing', 'Enter the number of the exemption, as the certificate shows it.', 'exemptNo');
    }
    saveParticulars(scene, { saleId, personId }, { ...person, personId: person.ref });
    const clearedBy = fields.cleared ? scene.worker : '';
    const buyerId = saveBuyer(scene, { saleId, buyerNo, personId, ...fields, clearedBy, limitCents: limit });
    return accept({ buyerId, buyerNo });
  },
});

function nextBuyerNo(scene: Scene, saleId: number): number {
  const found = scene.book.db
    .select({ n: max(buyer.buyerNo) })
    .from(buyer)
    .where(eq(buyer.saleId, saleId))
    .get();
  return (found?.n ?? 0) + 1;
}

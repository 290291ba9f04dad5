import { and, eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, type Result, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { partyNumber, rowId } from '../inputs.ts';
import { type PersonRow, personById, saleById, sellerByNumber } from '../queries/find.ts';
import { answerOf, saveDues } from '../save/dues.ts';
import { partner } from '../schema/index.ts';
import { decideDuesOf, duesFields } from './dues-fields.ts';

const input = z.strictObject({
  saleId: rowId,
  personId: rowId,
  /** The seller number that they sell behind; null for somebody who has none. */
  sellerNo: partyNumber.nullable().default(null),
  ...duesFields,
});

/** Takes somebody's dues, handed over or from the proceeds of their seller number; the membership is theirs at once. */
export const duesTake = defineCommand({
  name: 'dues.take',
  summary:
    'Takes a person’s dues, in cash, by check, by card or from the proceeds, and says to which day they are paid.',
  logLabel: 'Dues taken',
  stations: ['intake', 'office'],
  input,
  run(context, { saleId, personId, sellerNo, ...said }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const person = personById(context.book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: find or enrol them first.', 'personId');
    const sellerId = sellerNo === null ? accept(null) : sellerOf(context, { saleId, sellerNo, person });
    if (!sellerId.ok) return sellerId;
    const paidUntil = decideDuesOf({ sale, person, hasNumber: sellerNo !== null }, said);
    if (!paidUntil.ok) return paidUntil;
    const { how, amount: amountCents, reference } = said;
    const money = { how, amountCents, reference };
    const fields = { sale, person, sellerId: sellerId.value, ...money, memberUntil: paidUntil.value };
    const saved = saveDues(context, fields);
    return accept({ duesId: saved.duesId, memberUntil: paidUntil.value, ...answerOf([saved]) });
  },
});

interface Charged {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly person: PersonRow;
}

/** Only somebody behind a number has dues charged to it. */
function sellerOf({ book }: CommandContext, { saleId, sellerNo, person }: Charged): Result<number> {
  const seller = sellerByNumber(book, saleId, sellerNo);
  if (!seller) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
  const theirs = and(eq(partner.sellerId, seller.id), eq(partner.personId, person.id));
  const found = book.db.select({ id: partner.id }).from(partner).where(theirs).get();
  if (found) return accept(seller.id);
  const message = `${person.name} does not sell behind number ${sellerNo}: take their dues without a number, or at their own.`;
  return refuse('not_allowed', message, 'sellerNo');
}

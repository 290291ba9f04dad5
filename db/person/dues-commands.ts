import { and, eq, gt } from 'drizzle-orm';
import * as z from 'zod';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import {
  type PersonRow,
  particularsOf,
  personById,
  rowBy,
  type SaleRow,
  saleById,
  sellerByNumber,
} from '#db/book/find.ts';
import { dateOrNull, partyNumber, price, rowId, someReason, text } from '#db/book/inputs.ts';
import { paymentById } from '#db/payment/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { dues, liveDues, partner } from '#db/schema/index.ts';
import { type DuesHow, decideDues, decideLateDues, decideVoidDues, duesPaidUntil } from '#lib/person/dues.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { answerOf, chargeById, type DuesRow, saleOfCharge, saveDues, saveDuesVoided } from './dues.ts';

const HOW_ASKED = 'Say how the dues are paid: in cash, by check, by card, or from the proceeds.';

const duesFields = {
  /** Empty where a form was sent before anybody chose: then the book asks. */
  how: z
    .enum(['', 'deducted', 'cash', 'check', 'card'], { error: HOW_ASKED })
    .refine((how): how is DuesHow => how !== '', { error: HOW_ASKED }),
  amount: price,
  /** Empty takes the day that the sale's rule gives. */
  memberUntil: dateOrNull.default(null),
  /** What stands on the check or the card’s slip; of the other ways nothing is kept. */
  reference: text,
} satisfies z.ZodRawShape;

const shape = z.strictObject(duesFields);
export type DuesInput = z.output<typeof shape>;
export const duesOrNull = shape.nullable().default(null);

/** The day to which the dues would be paid, or why they cannot be taken so. */
export function decideDuesOf(
  { sale, person, hasNumber }: { readonly sale: SaleRow; readonly person: PersonRow; readonly hasNumber: boolean },
  { how, memberUntil }: DuesInput,
): Result<string> {
  const paidUntil = memberUntil ?? duesPaidUntil(sale, person.memberUntil);
  const { name, memberUntil: before } = person;
  const { stage, heldOn } = sale;
  const decided = decideDues({ name, stage, heldOn, how, hasNumber, memberUntil: before, paidUntil });
  return decided.ok ? accept(paidUntil) : decided;
}

/** Takes somebody's dues, handed over or from the proceeds of their seller number; the membership is theirs at once. */
export const duesTake = defineSaleCommand({
  name: 'dues.take',
  summary:
    'Takes a person’s dues, in cash, by check, by card or from the proceeds, and says to which day they are paid.',
  logLabel: 'Dues taken',
  stations: ['intake', 'office'],
  input: z.strictObject({
    saleId: rowId,
    personId: rowId,
    /** The seller number that they sell behind; null for somebody who has none. */
    sellerNo: partyNumber.nullable().default(null),
    ...duesFields,
    /** At a sale that is being settled: whether they change what it pays. Null until somebody has said so. */
    counts: z.boolean().nullable().default(null),
  }),
  run({ sale, ...context }, { saleId, personId, sellerNo, counts, ...said }) {
    const person = personById(context.book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: find or enrol them first.', 'personId');
    const sellerId = sellerNo === null ? accept(null) : sellerOf(context, saleId, sellerNo, person);
    if (!sellerId.ok) return sellerId;
    const paidUntil = decideDuesOf({ sale, person, hasNumber: sellerNo !== null }, said);
    if (!paidUntil.ok) return paidUntil;
    const asked =
      counts === null ? whatTheyChange(context, { sale, person, memberUntil: paidUntil.value }) : accept(null);
    if (!asked.ok) return asked;
    const { how, amount: amountCents, reference } = said;
    const money = { how, amountCents, reference, counts: counts ?? true };
    const saved = saveDues(context, { sale, person, sellerId: sellerId.value, ...money, memberUntil: paidUntil.value });
    return accept({ duesId: saved.duesId, memberUntil: paidUntil.value, ...answerOf([saved]) });
  },
});

interface Change {
  readonly sale: SaleRow;
  readonly person: PersonRow;
  readonly memberUntil: string;
}

/** A sale that is being settled was held with the dues that stood then: what others would make of it is shown and asked. */
function whatTheyChange({ book }: CommandContext, { sale, person, memberUntil }: Change): Result<null> {
  if (sale.stage !== 'settling') return accept(null);
  const ref = particularsOf(book, sale.id, person.id)?.ref;
  const facts = saleFacts(book, sale.id);
  const sellers = facts.sellers.map((one) => ({
    ...one,
    partners: one.partners.map((own) => (own.personId === ref ? { ...own, memberUntil } : own)),
  }));
  const after = new Map(settleSale({ ...facts, sellers }).map((one) => [one.sellerNo, one.netCents]));
  const changes = settleSale(facts).flatMap(({ sellerNo, netCents }) => {
    const net = after.get(sellerNo) ?? netCents;
    return net === netCents ? [] : [{ sellerNo, beforeCents: netCents, afterCents: net }];
  });
  return decideLateDues({ saleName: sale.name, name: person.name, changes });
}

/** Only somebody behind a number has dues charged to it. */
function sellerOf({ book }: CommandContext, saleId: number, sellerNo: number, person: PersonRow): Result<number> {
  const seller = sellerByNumber(book, saleId, sellerNo);
  if (!seller) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
  const theirs = and(eq(partner.sellerId, seller.id), eq(partner.personId, person.id));
  const found = book.db.select({ id: partner.id }).from(partner).where(theirs).get();
  if (found) return accept(seller.id);
  const message = `${person.name} does not sell behind number ${sellerNo}: take their dues without a number, or at their own.`;
  return refuse('not_allowed', message, 'sellerNo');
}

const duesById = rowBy(dues, 'id');
const duesThatVoid = rowBy(dues, 'voidsId');

/** Takes dues back that were taken by mistake: the money and the membership, each by a further row. */
export const duesVoid = defineCommand({
  name: 'dues.void',
  summary: 'Takes dues back, with the reason: the money, and the membership they bought.',
  logLabel: 'Dues taken back',
  stations: ['intake', 'office'],
  input: z.strictObject({ duesId: rowId, reason: someReason }),
  run(context, { duesId, reason }) {
    const row = duesById(context.book, duesId);
    const sale = row && saleOf(context, row);
    if (!row || !sale || row.voidsId !== null) {
      return refuse('unknown', 'These dues are not in the book: reload the page.', 'duesId');
    }
    const name = personById(context.book, row.personId)?.name ?? '';
    const voided = duesThatVoid(context.book, duesId) !== undefined;
    const decided = decideVoidDues({ name, stage: sale.stage, voided, laterStand: laterStand(context, row) });
    if (!decided.ok) return decided;
    return accept({ duesId: saveDuesVoided(context, row, sale, reason), voidsId: duesId });
  },
});

/** The sale at which the money changed hands. */
function saleOf({ book }: CommandContext, { chargeId, paymentId }: DuesRow): SaleRow | undefined {
  const charged = chargeById(book, chargeId ?? 0);
  return charged ? saleOfCharge(book, charged) : saleById(book, paymentById(book, paymentId ?? 0)?.saleId ?? 0);
}

function laterStand({ book }: CommandContext, { id, personId }: DuesRow): boolean {
  const later = and(eq(liveDues.personId, personId), gt(liveDues.id, id));
  return book.db.select({ id: liveDues.id }).from(liveDues).where(later).get() !== undefined;
}

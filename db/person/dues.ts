/** The rows of dues, and the membership they buy: now, at the sale where they were taken, and at those held after it. */

import { and, eq, gte, ne, or } from 'drizzle-orm';
import { saveCharge, saveChargeVoiding, savePayment, saveVoiding } from '#db/account/post.ts';
import type { CommandContext } from '#db/book/command.ts';
import { type ParticularsRow, type PersonRow, rowBy, type SaleRow, saleById, sellerById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { paymentById } from '#db/payment/queries.ts';
import { charge, dues, log, particulars, person, sale } from '#db/schema/index.ts';
import { shortDate } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import type { Cents } from '#lib/money/money.ts';
import { type DuesHow, isHandedOver } from '#lib/person/dues.ts';
import { earlierOpenSales } from './dues-queries.ts';
import { saveParticulars } from './save.ts';

export interface DuesFields {
  /** The sale at whose table they are taken. */
  readonly sale: SaleRow;
  readonly person: PersonRow;
  /** The seller number that they sell behind; null for somebody without one. */
  readonly sellerId: number | null;
  readonly how: DuesHow;
  readonly amountCents: Cents;
  /** The number of a check or of a card's slip; empty otherwise. */
  readonly reference: string;
  /** ISO 8601 date. */
  readonly memberUntil: string;
  /** Whether they count at this sale; at one that is being settled only where somebody said so. */
  readonly counts: boolean;
}

/** What else the answer says of dues that were taken; it is kept with the log line, and the way back reads it there. */
export interface DuesAnswer {
  /** Where a sale had another day than the person before, or the same from elsewhere. */
  readonly stood: readonly Stood[];
  /** The names of earlier sales that are still open, at which this person sells: nothing changes there. */
  readonly unchanged: readonly string[];
}

type Stood = Pick<ParticularsRow, 'saleId' | 'personId' | 'memberUntil' | 'memberLine'>;

export interface SavedDues extends DuesAnswer {
  readonly duesId: number;
}

/** Takes dues: the money, what it bought, and the membership from now on. A sale held before keeps what stood when it was held. */
export function saveDues(context: CommandContext, fields: DuesFields): SavedDues {
  const { person: who, sale: named, memberUntil, counts } = fields;
  const { book, line } = context;
  const money = moneyOf(context, fields);
  const before = atOpenSales(
    context,
    who.id,
    counts ? ofSaleFrom(named) : and(ofSaleFrom(named), ne(sale.id, named.id)),
  );
  const bought = { memberUntil, memberLine: line };
  updateRow({ book, line }, person, who.id, bought);
  for (const { id } of before) setAtSale(context, id, bought);
  const change = { memberUntilBefore: who.memberUntil, memberUntil, memberLineBefore: who.memberLine };
  const duesId = addRow(context, dues, { personId: who.id, ...money, ...change });
  const stood = before
    .filter((row) => row.memberUntil !== who.memberUntil || row.memberLine !== who.memberLine)
    .map(({ id, ...row }) => ({ ...row, personId: who.id }));
  return { duesId, stood, unchanged: earlierOpenSales(book, who.id, named) };
}

/** What an answer holds of it: nothing where there is nothing to say. */
export function answerOf(saved: readonly DuesAnswer[]): Partial<DuesAnswer> {
  const stood = saved.flatMap((one) => one.stood);
  const unchanged = [...new Set(saved.flatMap((one) => one.unchanged))];
  return { ...(stood.length > 0 ? { stood } : {}), ...(unchanged.length > 0 ? { unchanged } : {}) };
}

interface Money {
  readonly chargeId: number | null;
  readonly paymentId: number | null;
}

/** A charge of a number is deducted or in cash, as the folder has it; what is paid otherwise is the person's own payment. */
function moneyOf(context: CommandContext, fields: DuesFields): Money {
  const { sellerId, how } = fields;
  if (sellerId !== null && (how === 'cash' || how === 'deducted')) {
    const { amountCents, memberUntil } = fields;
    const row = { sellerId, how, kind: 'dues', amountCents, note: `paid until ${shortDate(memberUntil)}` } as const;
    return { chargeId: saveCharge(context, row), paymentId: null };
  }
  if (!isHandedOver(how)) throw new RangeError('dues from the proceeds of nobody');
  return paymentOf(context, fields, how);
}

/** Whoever has no number yet is written down at the sale, so that its payments say whose they are. */
function paymentOf(context: CommandContext, fields: DuesFields, method: Exclude<DuesHow, 'deducted'>): Money {
  const { person: who, amountCents, memberUntil, reference: said } = fields;
  const saleId = fields.sale.id;
  saveParticulars(context, { saleId, personId: who.id }, { ...who, personId: who.ref });
  const nobody = { buyerId: null, sellerId: null, personId: who.id };
  const bought = `dues until ${shortDate(memberUntil)}`;
  const reference = method === 'cash' || said === '' ? bought : `${said}, ${bought}`;
  const how = { direction: 'in', method, reference } as const;
  const paymentId = savePayment(context, { saleId, ...nobody, ...how, amountCents, paidAt: context.at });
  return { chargeId: null, paymentId };
}

export type DuesRow = typeof dues.$inferSelect;

/**
 * Takes dues back: the money by a row of its own, and the membership wherever it still is the one they bought. `named`
 * is the sale at which they were taken.
 */
export function saveDuesVoided(context: CommandContext, row: DuesRow, named: SaleRow, reason: string): number {
  const money = voidMoney(context, row, reason);
  undoMembership(context, row, named);
  const change = { memberUntilBefore: row.memberUntil, memberUntil: row.memberUntilBefore, memberLineBefore: row.line };
  return addRow(context, dues, { personId: row.personId, ...money, ...change, voidsId: row.id, reason });
}

type ChargeRow = typeof charge.$inferSelect;

export const chargeById = rowBy(charge, 'id');

export function saleOfCharge(book: Book, { sellerId }: Pick<ChargeRow, 'sellerId'>): SaleRow | undefined {
  return saleById(book, sellerById(book, sellerId)?.saleId ?? 0);
}

function voidMoney(context: CommandContext, { chargeId, paymentId }: DuesRow, reason: string): Money {
  const charged = chargeId === null ? undefined : chargeById(context.book, chargeId);
  if (charged) return { chargeId: saveChargeVoiding(context, charged, reason), paymentId: null };
  const paid = paymentId === null ? undefined : paymentById(context.book, paymentId);
  if (!paid) throw new RangeError('dues without the money that bought them');
  return { chargeId: null, paymentId: saveVoiding(context, paid, reason) };
}

function undoMembership(context: CommandContext, { personId, line: takenAt, ...row }: DuesRow, named: SaleRow): void {
  const { book, line } = context;
  const before = { memberUntil: row.memberUntilBefore, memberLine: row.memberLineBefore };
  const theirs = and(eq(person.id, personId), eq(person.memberLine, takenAt));
  book.db
    .update(person)
    .set({ ...before, line })
    .where(theirs)
    .run();
  const stood = new Map(stoodBefore(context, takenAt, personId).map((one) => [one.saleId, one]));
  // Whoever came to an earlier sale afterwards was written down there with what these dues had bought.
  const reached = or(ofSaleFrom(named), ne(sale.stage, 'settling'));
  for (const { id, saleId } of atOpenSales(context, personId, and(eq(particulars.memberLine, takenAt), reached))) {
    setAtSale(context, id, stood.get(saleId) ?? before);
  }
}

/** What the line that took dues says of the sales at which something else stood before. */
function stoodBefore({ book }: CommandContext, line: number, personId: number): Stood[] {
  const found = book.db.select({ result: log.result }).from(log).where(eq(log.seq, line)).get();
  const { stood = [] } = JSON.parse(found?.result ?? '{}') as { readonly stood?: readonly Stood[] };
  return stood.filter((one) => one.personId === personId);
}

/** The named sale and those held on its day or later; one that is being settled goes by what stood when it was held. */
function ofSaleFrom({ id, heldOn }: SaleRow) {
  return or(eq(sale.id, id), and(gte(sale.heldOn, heldOn), ne(sale.stage, 'settling')));
}

/** A person as they stand at the sales that are not closed; closed ones keep what was shown there. */
function atOpenSales({ book }: CommandContext, personId: number, where: ReturnType<typeof and>) {
  return book.db
    .select(pick(particulars, ['id', 'saleId', 'memberUntil', 'memberLine']))
    .from(particulars)
    .innerJoin(sale, eq(sale.id, particulars.saleId))
    .where(and(eq(particulars.personId, personId), ne(sale.stage, 'closed'), where))
    .orderBy(particulars.id)
    .all();
}

type Membership = Pick<PersonRow, 'memberUntil' | 'memberLine'>;

function setAtSale({ book, line }: CommandContext, particularsId: number, membership: Membership): void {
  const { memberUntil, memberLine } = membership;
  updateRow({ book, line }, particulars, particularsId, { memberUntil, memberLine });
}

/** The rows of dues, and the membership they buy: now, and in every sale that is not closed. */
import { and, eq, inArray, isNull, ne } from 'drizzle-orm';
import { type DuesHow, isHandedOver } from '#lib/dues.ts';
import type { ChargeHow } from '#lib/facts.ts';
import type { Cents } from '#lib/money.ts';
import type { Scene } from '../command.ts';
import type { PersonRow } from '../queries/find.ts';
import { insertRow } from '../rows.ts';
import { charge, dues, particulars, payment, person, sale } from '../schema/index.ts';
import { saveVoiding } from './buyer-and-payment.ts';
import { saveParticulars } from './person.ts';
import { saveCharge, savePayment } from './seller.ts';

export interface DuesFields {
  readonly saleId: number;
  readonly person: PersonRow;
  /** The seller number that they sell behind; null for somebody without one. */
  readonly sellerId: number | null;
  readonly how: DuesHow;
  readonly amountCents: Cents;
  /** The number of a check or of a card's slip; empty otherwise. */
  readonly reference: string;
  /** ISO 8601 date. */
  readonly memberUntil: string;
}

/** Takes dues: the money, what it bought, and the membership from now on. Gives the row's id. */
export function saveDues(scene: Scene, fields: DuesFields): number {
  const { person: who, memberUntil } = fields;
  const money = moneyOf(scene, fields);
  setMemberUntil(scene, who.id, { to: memberUntil });
  const { line } = scene;
  const change = { memberUntilBefore: who.memberUntil, memberUntil };
  return insertRow(scene.book, dues, { personId: who.id, ...money, ...change, line });
}

interface Money {
  readonly chargeId: number | null;
  readonly paymentId: number | null;
}

/** A charge of a number is deducted or in cash, as the folder has it; what is paid otherwise is the person's own payment. */
function moneyOf(scene: Scene, fields: DuesFields): Money {
  const { sellerId, how } = fields;
  if (sellerId !== null && (how === 'cash' || how === 'deducted')) return chargeOf(scene, fields, { sellerId, how });
  if (!isHandedOver(how)) throw new RangeError('dues from the proceeds of nobody');
  return paymentOf(scene, fields, how);
}

interface Charged {
  readonly sellerId: number;
  readonly how: ChargeHow;
}

function chargeOf(scene: Scene, { amountCents, memberUntil }: DuesFields, charged: Charged): Money {
  const note = `paid until ${memberUntil}`;
  return { chargeId: saveCharge(scene, { ...charged, kind: 'dues', amountCents, note }), paymentId: null };
}

/** Whoever has no number yet is written down at the sale, so that its payments say whose they are. */
function paymentOf(scene: Scene, fields: DuesFields, method: Exclude<DuesHow, 'deducted'>): Money {
  const { saleId, person: who, amountCents, memberUntil, reference: said } = fields;
  saveParticulars(scene, { saleId, personId: who.id }, { ...who, personId: who.ref });
  const nobody = { buyerId: null, sellerId: null, personId: who.id };
  const bought = `dues until ${memberUntil}`;
  const reference = method === 'cash' || said === '' ? bought : `${said}, ${bought}`;
  const how = { direction: 'in', method, reference } as const;
  return {
    chargeId: null,
    paymentId: savePayment(scene, { saleId, ...nobody, ...how, amountCents, paidAt: scene.at }),
  };
}

export type DuesRow = typeof dues.$inferSelect;

/** Takes dues back: the money by a row of its own, and the membership where nobody has changed it since. */
export function saveDuesVoided(scene: Scene, row: DuesRow, reason: string): number {
  const money = voidMoney(scene, row, reason);
  setMemberUntil(scene, row.personId, { from: row.memberUntil, to: row.memberUntilBefore });
  const change = { memberUntilBefore: row.memberUntil, memberUntil: row.memberUntilBefore };
  const { line } = scene;
  return insertRow(scene.book, dues, { personId: row.personId, ...money, ...change, voidsId: row.id, reason, line });
}

function voidMoney(scene: Scene, { chargeId, paymentId }: DuesRow, reason: string): Money {
  const { db } = scene.book;
  const charged = chargeId === null ? undefined : db.select().from(charge).where(eq(charge.id, chargeId)).get();
  if (charged) {
    const { id: voidsId, ...fields } = charged;
    const row = { ...fields, note: reason, voidsId, line: scene.line };
    return { chargeId: insertRow(scene.book, charge, row), paymentId: null };
  }
  const paid = paymentId === null ? undefined : db.select().from(payment).where(eq(payment.id, paymentId)).get();
  if (!paid) throw new RangeError('dues without the money that bought them');
  return { chargeId: null, paymentId: saveVoiding(scene, paid, reason) };
}

interface Change {
  readonly to: string | null;
  /** Where given, only what still says so is changed. */
  readonly from?: string | null;
}

/** Sets to which day somebody's dues are paid, now and at every sale but the closed ones, which keep what was shown there. */
function setMemberUntil({ book: { db }, line }: Scene, personId: number, { to: memberUntil, from }: Change): void {
  const set = { memberUntil, line };
  db.update(person)
    .set(set)
    .where(and(eq(person.id, personId), still(person, from)))
    .run();
  const open = db.select({ id: sale.id }).from(sale).where(ne(sale.stage, 'closed'));
  const theirs = and(eq(particulars.personId, personId), inArray(particulars.saleId, open));
  db.update(particulars)
    .set(set)
    .where(and(theirs, still(particulars, from)))
    .run();
}

function still({ memberUntil }: typeof person | typeof particulars, from: string | null | undefined) {
  if (from === undefined) return undefined;
  return from === null ? isNull(memberUntil) : eq(memberUntil, from);
}

/** The drawer's entries and the money that was recorded beside them, in the order of the log. */
import { and, asc, eq, isNull } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { countCash, type Pieces } from '#lib/drawer/denominations.ts';
import type { DrawerEntry, DrawerMove } from '#lib/drawer/reckon.ts';
import type { Direction, Method } from '#lib/facts.ts';
import { type Cents, cents, negate } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { charge, drawerEntry, drawerPiece, payment, seller } from '../schema/index.ts';

/** An entry that stands, with its notes and coins, the largest first. */
export interface DrawerEntryRow extends DrawerEntry {
  readonly pieces: readonly Pieces[];
  readonly note: string;
  readonly at: string;
}

/** The entries of a sale's drawer that were not voided, the oldest first. */
export function drawerEntries(book: Book, saleId: number): DrawerEntryRow[] {
  const voiding = alias(drawerEntry, 'voiding');
  const rows = book.db
    .select({ entry: drawerEntry })
    .from(drawerEntry)
    .leftJoin(voiding, eq(voiding.voidsId, drawerEntry.id))
    .where(and(eq(drawerEntry.saleId, saleId), isNull(drawerEntry.voidsId), isNull(voiding.id)))
    .orderBy(asc(drawerEntry.line))
    .all();
  const pieces = piecesOf(book, saleId);
  return rows.map(({ entry }) => {
    const own = pieces.get(entry.id) ?? [];
    return {
      ...{ entryId: entry.id, kind: entry.kind, line: entry.line, pieces: own, cashCents: countCash(own) },
      checksCents: centsOrNull(entry.checksCents),
      cardsCents: centsOrNull(entry.cardsCents),
      otherCents: centsOrNull(entry.otherCents),
      ...{ note: entry.note, at: entry.at },
    };
  });
}

function piecesOf(book: Book, saleId: number): Map<number, Pieces[]> {
  const { entryId, denominationCents, pieces } = drawerPiece;
  const rows = book.db
    .select({ entryId, denominationCents, pieces })
    .from(drawerPiece)
    .innerJoin(drawerEntry, eq(drawerEntry.id, entryId))
    .where(eq(drawerEntry.saleId, saleId))
    .orderBy(asc(entryId), asc(drawerPiece.id))
    .all();
  const byEntry = new Map<number, Pieces[]>();
  for (const { entryId: id, ...row } of rows) {
    const own = byEntry.get(id) ?? [];
    byEntry.set(id, [...own, { denominationCents: cents(row.denominationCents), pieces: row.pieces }]);
  }
  return byEntry;
}

/**
 * All money of a sale that goes through the drawer, by the line that recorded it: payments of buyers and sellers, and
 * charges taken in cash. A row that takes another back is a move the other way, at its own line.
 */
export function drawerMoves(book: Book, saleId: number): DrawerMove[] {
  return [...paymentMoves(book, saleId), ...chargeMoves(book, saleId)].sort((a, b) => a.line - b.line);
}

function paymentMoves(book: Book, saleId: number): DrawerMove[] {
  const { line, method, direction, amountCents, voidsId } = payment;
  const rows = book.db
    .select({ line, method, direction, amountCents, voidsId })
    .from(payment)
    .where(eq(payment.saleId, saleId))
    .all();
  return rows.flatMap((row) => {
    if (!throughDrawer(row)) return [];
    const amount = cents(row.amountCents);
    const comesIn = (row.direction === 'in') === (row.voidsId === null);
    return [{ line: row.line, method: row.method, amountCents: comesIn ? amount : negate(amount) }];
  });
}

/** A check written out is drawn on the bank: it was never in the drawer. */
function throughDrawer({ method, direction }: { readonly method: Method; readonly direction: Direction }): boolean {
  return method !== 'check' || direction === 'in';
}

function chargeMoves(book: Book, saleId: number): DrawerMove[] {
  const { line, amountCents, voidsId, how } = charge;
  const rows = book.db
    .select({ line, amountCents, voidsId })
    .from(charge)
    .innerJoin(seller, eq(seller.id, charge.sellerId))
    .where(and(eq(seller.saleId, saleId), eq(how, 'cash')))
    .all();
  return rows.map((row) => {
    const amount = cents(row.amountCents);
    return { line: row.line, method: 'cash' as const, amountCents: row.voidsId === null ? amount : negate(amount) };
  });
}

function centsOrNull(amount: number | null): Cents | null {
  return amount === null ? null : cents(amount);
}

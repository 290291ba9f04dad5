/** The drawer's entries and the money that was recorded beside them, in the order of the log. */
import { and, asc, eq, isNull } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { bankedIn } from '#db/bank/queries.ts';
import { rowsBy, type SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { charge, drawerEntry, drawerPiece, log, payment, seller, taking } from '#db/schema/index.ts';
import { ACCOUNTS, type CashAccount } from '#lib/account/account.ts';
import { countCash, denominationsOf, type Pieces } from '#lib/drawer/cash.ts';
import {
  type DrawerEntry,
  type DrawerLine,
  type DrawerMove,
  isOpen,
  reckonDrawer,
  stintOf,
} from '#lib/drawer/drawer.ts';
import { pick } from '#lib/field/fields.ts';
import { type Cents, cents, formatMoney, negate, showMoney, sumCents, ZERO } from '#lib/money/money.ts';
import { balanceWords } from '#lib/payment/amount-words.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Handed } from '#lib/sale/facts.ts';
import { isHandedOver } from '#lib/seller/account.ts';

/** An entry that stands, with its bills and coins, the largest first. */
interface DrawerEntryRow extends DrawerEntry {
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
    const own = (pieces.get(entry.id) ?? []).map((one) => pick(one, ['denominationCents', 'pieces']));
    const { id: entryId, kind, line, checksCents, cardsCents, otherCents, note, at } = entry;
    const beside = { checksCents, cardsCents, otherCents };
    return { entryId, kind, line, pieces: own, cashCents: countCash(own), ...beside, note, at };
  });
}

function piecesOf(book: Book, saleId: number) {
  const rows = book.db
    .select(pick(drawerPiece, ['entryId', 'denominationCents', 'pieces']))
    .from(drawerPiece)
    .innerJoin(drawerEntry, eq(drawerEntry.id, drawerPiece.entryId))
    .where(eq(drawerEntry.saleId, saleId))
    .orderBy(asc(drawerPiece.entryId), asc(drawerPiece.id))
    .all();
  return groupBy(rows, ({ entryId }) => entryId);
}

/**
 * All money of a sale that goes through the drawer, by the line that recorded it: payments of buyers and sellers,
 * charges taken in cash, and takings. A row that takes another back is a move the other way, at its own line.
 */
export function drawerMoves(book: Book, saleId: number): DrawerMove[] {
  const moves = [...paymentMoves(book, saleId), ...chargeMoves(book, saleId), ...takingMoves(book, saleId)];
  return moves.sort((a, b) => a.line - b.line);
}

/** A line before any opening of a drawer. */
const NO_STINT = 0;

const paymentsOfSale = rowsBy(payment, payment.id, 'saleId');

function paymentMoves(book: Book, saleId: number): DrawerMove[] {
  const handed = paymentsOfSale(book, saleId).filter(isHandedOver);
  return handed.flatMap((row): DrawerMove[] => {
    const { method } = row;
    // A check written out is drawn on the bank: it was never in the drawer.
    if (method === 'check' && row.direction === 'out') return [];
    const comesIn = (row.direction === 'in') === (row.voidsId === null);
    // A check that came back from the bank was in the drawer no more: it goes off beside all that is counted there.
    const line = row.voidsId !== null && bankedIn(book, row.voidsId) ? NO_STINT : row.line;
    return [{ line, method, amountCents: comesIn ? row.amountCents : negate(row.amountCents) }];
  });
}

function chargeMoves(book: Book, saleId: number): DrawerMove[] {
  const rows = book.db
    .select(pick(charge, ['line', 'amountCents', 'voidsId']))
    .from(charge)
    .innerJoin(seller, eq(seller.id, charge.sellerId))
    .where(and(eq(seller.saleId, saleId), eq(charge.how, 'cash')))
    .all();
  return rows.map(({ line, amountCents: amount, voidsId }) => ({
    ...{ line, method: 'cash' as const, amountCents: voidsId === null ? amount : negate(amount) },
  }));
}

const takingsOfSale = rowsBy(taking, taking.id, 'saleId');

function takingMoves(book: Book, saleId: number): DrawerMove[] {
  return takingsOfSale(book, saleId).map(({ line, method, amountCents: amount, voidsId }) => ({
    ...{ line, method, amountCents: voidsId === null ? amount : negate(amount) },
  }));
}

/** The account in which cash that changes hands now lies. */
export function cashAccountNow(book: Book, saleId: number): CashAccount {
  return isOpen(drawerEntries(book, saleId)) ? ACCOUNTS.drawer : ACCOUNTS.outside;
}

const LIES_IN: Readonly<Record<Handed, string>> = {
  cash: ACCOUNTS.drawer,
  check: ACCOUNTS.checks,
  card: ACCOUNTS.cards,
  other: ACCOUNTS.other,
};

/** The cash that the drawer ought to hold now, and by how much each method was over or short where it was just closed. */
export function drawerStands(book: Book, saleId: number) {
  const entries = drawerEntries(book, saleId);
  const stint = stintOf(entries);
  const last = stint.at(-1);
  if (!last) return { holdsCents: ZERO, offs: [] };
  const closed = last.kind === 'closed' ? last : null;
  const lines = reckonDrawer(stint, drawerMoves(book, saleId), closed);
  const held = lines.find(({ method }) => method === 'cash')?.expectedCents ?? ZERO;
  const offs = lines.flatMap(({ method, differenceCents }) =>
    differenceCents ? [{ account: LIES_IN[method], amountCents: differenceCents }] : [],
  );
  return { holdsCents: closed ? ZERO : held, offs: closed ? offs : [] };
}

export interface DrawerViewLine {
  readonly method: Handed;
  readonly float: string;
  readonly added: string;
  readonly taken: string;
  readonly in: string;
  readonly out: string;
  readonly expected: string;
  /** Empty where this method was not counted. */
  readonly counted: string;
  readonly difference: { readonly kind: 'over' | 'short' | 'even'; readonly words: string } | null;
}

export interface DrawerViewEntry extends Pick<DrawerEntryRow, 'entryId' | 'kind' | 'note' | 'at'> {
  readonly cash: string;
  /** Checks, cards and other as far as they were said. */
  readonly beside: readonly string[];
  readonly worker: string;
  /** The newest entry that stands may be taken back. */
  readonly newest: boolean;
}

export interface DrawerView {
  readonly open: boolean;
  readonly denominations: readonly { readonly value: string; readonly cents: Cents; readonly words: string }[];
  /** The newest count against what was recorded by then, or null. */
  readonly count: { readonly at: string; readonly lines: readonly DrawerViewLine[] } | null;
  /** What should lie in it now; empty while it is not open. */
  readonly now: readonly DrawerViewLine[];
  /** Cash that was recorded before the drawer was opened, which is not reckoned here; empty for none. */
  readonly before: string;
  readonly entries: readonly DrawerViewEntry[];
}

export function drawerView(book: Book, sale: Pick<SaleRow, 'id' | 'currency'>): DrawerView {
  const entries = drawerEntries(book, sale.id);
  const moves = drawerMoves(book, sale.id);
  const stint = stintOf(entries);
  const open = isOpen(entries);
  const count = stint.findLast(({ kind }) => kind === 'counted' || kind === 'closed') ?? null;
  const [first] = entries;
  const early = moves.filter(({ line, method }) => method === 'cash' && (!first || line < first.line));
  const before = sumCents(early.map(({ amountCents }) => amountCents));
  return {
    open,
    denominations: denominationsOf(sale.currency).map((one) => ({ ...one, value: formatMoney(one.cents) })),
    count: count && { at: count.at, lines: reckonDrawer(stint, moves, count).map(inWords) },
    now: open ? reckonDrawer(stint, moves, null).map(inWords) : [],
    before: before === 0 ? '' : showMoney(before),
    entries: entriesInWords(book, sale.id, entries),
  };
}

function inWords(line: DrawerLine): DrawerViewLine {
  return {
    method: line.method,
    float: showMoney(line.floatCents),
    added: showMoney(line.addedCents),
    taken: showMoney(line.takenCents),
    in: showMoney(line.inCents),
    out: showMoney(line.outCents),
    expected: balanceWords(line.expectedCents),
    counted: line.countedCents === null ? '' : showMoney(line.countedCents),
    difference: line.differenceCents === null ? null : differenceOf(line.differenceCents),
  };
}

function differenceOf(amount: Cents): NonNullable<DrawerViewLine['difference']> {
  if (amount === 0) return { kind: 'even', words: 'even' };
  const kind = amount > 0 ? 'over' : 'short';
  return { kind, words: `${showMoney(cents(Math.abs(amount)))} ${kind}` };
}

function entriesInWords(book: Book, saleId: number, entries: readonly DrawerEntryRow[]): DrawerViewEntry[] {
  const rows = book.db
    .select({ entryId: drawerEntry.id, worker: log.worker })
    .from(drawerEntry)
    .innerJoin(log, eq(log.seq, drawerEntry.line))
    .where(eq(drawerEntry.saleId, saleId))
    .orderBy(asc(drawerEntry.id))
    .all();
  const workers = new Map(rows.map(({ entryId, worker }) => [entryId, worker]));
  const newest = entries.at(-1)?.entryId;
  return entries.map(({ entryId, kind, cashCents, note, at, ...entry }) => ({
    ...{ entryId, kind, note, at, cash: showMoney(cashCents), worker: workers.get(entryId) ?? '' },
    beside: [
      ...said('checks', entry.checksCents),
      ...said('cards', entry.cardsCents),
      ...said('other', entry.otherCents),
    ],
    newest: entryId === newest,
  }));
}

function said(what: string, amount: Cents | null): string[] {
  return amount === null ? [] : [`${what} ${showMoney(amount)}`];
}

/** The drawer of a sale: whether it is open, what it should hold, what was counted. A finished view for the till. */
import { asc, eq } from 'drizzle-orm';
import { denominationsOf } from '#lib/drawer/denominations.ts';
import { type DrawerKind, type DrawerLine, isOpen, reckonDrawer, stintOf } from '#lib/drawer/reckon.ts';
import type { Method } from '#lib/facts.ts';
import { type Cents, cents, formatMoney, showMoney, sumCents } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { drawerEntry, log } from '../schema/index.ts';
import { type DrawerEntryRow, drawerEntries, drawerMoves } from './drawer.ts';
import type { SaleRow } from './find.ts';

export interface DrawerViewLine {
  readonly method: Method;
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

export interface DrawerViewEntry {
  readonly entryId: number;
  readonly kind: DrawerKind;
  readonly cash: string;
  /** Checks, cards and other as far as they were said. */
  readonly beside: readonly string[];
  readonly note: string;
  readonly at: string;
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
    expected: showMoney(line.expectedCents),
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

/** Which sales there are, and which one a station works at when nobody says. */
import { and, desc, eq, sql } from 'drizzle-orm';
import { rowBy, type SaleRow, saleById } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { openQuietly } from '#db/book/open-for-reading.ts';
import { association, closing, log, sale } from '#db/schema/index.ts';
import { clockWarning, localDay, momentInWords, NO_ZONE_YET } from '#lib/date/date.ts';
import type { Method, Stage } from '#lib/sale/facts.ts';

export type AssociationRow = typeof association.$inferSelect;

export function allSales(book: Book): SaleRow[] {
  return findSales(book).all();
}

const findSales = query(({ db }) => db.select().from(sale).orderBy(desc(sale.heldOn), desc(sale.id)));

/**
 * The sale that is being sold, the newest where there are two; else the newest under way, else the newest planned one,
 * else the newest: an intake that opens and next year's plan wait their turn.
 */
export function currentSale(book: Book): SaleRow | undefined {
  return currentOf(allSales(book));
}

function currentOf(sales: readonly SaleRow[]): SaleRow | undefined {
  const at = (stage: Stage) => sales.find((one) => one.stage === stage);
  return at('selling') ?? sales.find(isUnderWay) ?? at('planned') ?? sales[0];
}

/** The other sales under way, the newest first: two are open at once where one is settled while the next takes in. */
export function otherOpenSales(book: Book, { id }: Pick<SaleRow, 'id'>): SaleRow[] {
  return allSales(book).filter((one) => one.id !== id && isUnderWay(one));
}

/** What a stage of a sale would do to stations that name no sale, as a sentence; empty where they stay. */
export function movesStations(book: Book, { id }: Pick<SaleRow, 'id'>, to: Stage): string {
  const sales = allSales(book);
  const [now, then] = [currentOf(sales), currentOf(sales.map((one) => (one.id === id ? { ...one, stage: to } : one)))];
  if (!now || !then || now.id === then.id || !isUnderWay(now) || to === 'closed') return '';
  return `Every station then opens ${then.name} and leaves ${now.name}.`;
}

const newestClosing = query(({ db }) =>
  db
    .select({ line: closing.line })
    .from(closing)
    .where(and(equals(closing.saleId, 'saleId'), eq(closing.kind, 'closed')))
    .orderBy(desc(closing.id))
    .limit(1),
);

/** The log line by which a sale was closed last; beyond any line where it never was. */
export function closedAt(book: Book, saleId: number): number {
  return newestClosing(book).get({ saleId })?.line ?? Number.MAX_SAFE_INTEGER;
}

/** Whether what was written at a line of the log is counted by the report of a sale that is closed. */
function isFrozen(book: Book, { id, stage }: Pick<SaleRow, 'id' | 'stage'>, line: number): boolean {
  return stage === 'closed' && line <= closedAt(book, id);
}

/** The same of a payment. A debt that was written off is taken up again at any time: whoever owed it pays after all. */
export function isPaymentFrozen(
  book: Book,
  sale: Pick<SaleRow, 'id' | 'stage'>,
  { line, method }: { readonly line: number; readonly method: Method },
): boolean {
  return method !== 'written_off' && isFrozen(book, sale, line);
}

function isUnderWay({ stage }: Pick<SaleRow, 'stage'>): boolean {
  return stage !== 'planned' && stage !== 'closed';
}

/** The sale that is being sold, or undefined: the one an address names if it is, or the newest where none is named. */
export function sellingSale(book: Book, named: string | undefined): SaleRow | undefined {
  const sales = named === undefined ? allSales(book) : [saleOfAddress(book, named)];
  return sales.find((sale) => sale?.stage === 'selling');
}

/** The sale that an address names, else the current one. */
export function saleOfAddress(book: Book, named: string | undefined): SaleRow | undefined {
  if (named === undefined) return currentSale(book);
  return /^\d{1,9}$/.test(named) ? saleById(book, Number.parseInt(named, 10)) : undefined;
}

const saleOfDay = rowBy(sale, 'name', 'heldOn');

/** A yearly sale may keep its name: the name and the day together say which it is. `except` is the sale that asks. */
export function isPlanned(book: Book, { name, heldOn }: Pick<SaleRow, 'name' | 'heldOn'>, except?: number): boolean {
  const found = saleOfDay(book, name, heldOn);
  return found !== undefined && found.id !== except;
}

export function theAssociation(book: Book): AssociationRow | undefined {
  return findAssociation(book).get();
}

const findAssociation = query(({ db }) => db.select().from(association).where(eq(association.id, 1)));

export function timeZoneOf(book: Book): string {
  return theAssociation(book)?.timeZone || NO_ZONE_YET;
}

/** The local day of an ISO 8601 time, as an ISO 8601 date. */
export function dayIn(book: Book, instant: string): string {
  return localDay(instant, timeZoneOf(book));
}

/** The day and the time of an ISO 8601 time in words, such as `Nov 29, 2026, 8:05 PM`. */
export function momentIn(book: Book, instant: string): string {
  return momentInWords(instant, timeZoneOf(book));
}

/** The zone that a book at rest keeps, also of one whose tables are those of a version that kept none. */
export function timeZoneOfFile(file: string): string {
  const sqlite = openQuietly(file);
  try {
    const kept = sqlite.prepare(`SELECT 1 FROM pragma_table_info('association') WHERE name = 'time_zone'`).get();
    if (kept === undefined) return NO_ZONE_YET;
    const zone = sqlite.prepare('SELECT time_zone FROM association').pluck().get();
    return typeof zone === 'string' && zone !== '' ? zone : NO_ZONE_YET;
  } finally {
    sqlite.close();
  }
}

const newestTime = query(({ db }) => db.select({ at: log.at }).from(log).orderBy(desc(log.seq)).limit(1));

const saleBeingCalled = query(({ db }) =>
  db
    .select({ heldOn: sale.heldOn })
    .from(sale)
    .where(sql`${sale.stage} = 'selling'`)
    .orderBy(desc(sale.heldOn))
    .limit(1),
);

/** What is wrong with the laptop's clock, held against the newest line and a sale that is being called; or null. */
export function clockView(book: Book, now: string): string | null {
  return clockWarning({
    now,
    newest: newestTime(book).get()?.at ?? null,
    heldOn: saleBeingCalled(book).get()?.heldOn ?? null,
    timeZone: timeZoneOf(book),
  });
}

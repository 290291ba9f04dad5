/** Walks the same table of two databases in the order of its primary key, and tells the rows that differ. */
import type Database from 'better-sqlite3';
import type { Cell, TableDifference } from './report.ts';

/** The columns that keep the text of an issued document. */
const FROZEN_COLUMN = 'model';

/**
 * Whether a frozen text stands for what the log makes today. Of the same version it is the same text. An older one may
 * be worded otherwise, and says less; but every figure on it is there today in the same place, and so is every amount
 * in its words.
 */
export function sameFrozen(book: string, replay: string): boolean {
  if (book === replay) return true;
  const [frozen, today] = [parsed(book), parsed(replay)];
  if (frozen === null || today === null || versionOf(frozen) >= versionOf(today)) return false;
  const [was, is] = [figuresOf(frozen), figuresOf(today)];
  if ([...was].some(([place, figure]) => is.get(place) !== figure)) return false;
  const amounts = amountsIn(replay);
  return [...amountsIn(book)].every(([amount, times]) => times <= (amounts.get(amount) ?? 0));
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function versionOf(model: unknown): number {
  const version = (model as { version?: unknown } | null)?.version;
  return typeof version === 'number' ? version : 0;
}

/** Every number, and the head of the log, by its place, such as `totals.netCents`; the version is none of them. */
function figuresOf(model: unknown): Map<string, number | string> {
  const figures = new Map<string, number | string>();
  const walk = (value: unknown, place: string): void => {
    if (typeof value === 'number' || (typeof value === 'string' && HASH.test(value))) figures.set(place, value);
    if (typeof value !== 'object' || value === null) return;
    for (const [name, part] of Object.entries(value)) walk(part, `${place}.${name}`);
  };
  walk(model, '');
  figures.delete('.version');
  return figures;
}

const HASH = /^[0-9a-f]{64}$/;
const AMOUNT = /\d[\d,]*\.\d\d(?!\d)/g;

/** How often each amount of money stands in the words. */
function amountsIn(text: string): Map<string, number> {
  const amounts = new Map<string, number>();
  for (const [amount] of text.matchAll(AMOUNT)) amounts.set(amount, (amounts.get(amount) ?? 0) + 1);
  return amounts;
}

interface Shape {
  readonly table: string;
  readonly columns: readonly string[];
  /** Places of the key's columns among the columns. */
  readonly key: readonly number[];
  /** Place of the column that names the log line, or -1. */
  readonly line: number;
}

type Row = readonly Stored[];

/** Every table that keeps rows of ours, by name. */
export function tableNames(sqlite: Database.Database): string[] {
  const all = sqlite.prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").pluck().all();
  return (all as string[]).filter((name) => !name.startsWith('sqlite_'));
}

interface Sides {
  readonly book: Database.Database;
  readonly replay: Database.Database;
  /** How many lines the log has. */
  readonly lines: number;
}

/** The rows that differ between the book and its replay; both have the table with the same columns. */
export function* compareTable(table: string, { book, replay, lines }: Sides): Generator<TableDifference> {
  const shape = shapeOf(replay, table);
  const ours = rowsOf(book, shape);
  const theirs = rowsOf(replay, shape);
  try {
    let a = ours.next();
    let b = theirs.next();
    while (!a.done || !b.done) {
      const order = orderOf(shape, a.done ? undefined : a.value, b.done ? undefined : b.value);
      const inBook = order <= 0 && !a.done ? a.value : undefined;
      const inReplay = order >= 0 && !b.done ? b.value : undefined;
      const found = differenceOf(shape, inBook, inReplay);
      if (found) yield { ...found, line: answerable(shape, inBook, inReplay, lines) };
      if (inBook) a = ours.next();
      if (inReplay) b = theirs.next();
    }
  } finally {
    // A damaged page ends one walk in the middle; the other would keep its connection busy.
    ours.return?.();
    theirs.return?.();
  }
}

/**
 * The line to name for a row that differs. The log's word on who wrote it goes before the row's own, which may be what
 * was changed. Only where the row is otherwise another, too, and names a line behind the log's end, that line is lost.
 */
function answerable(shape: Shape, inBook: Row | undefined, inReplay: Row | undefined, lines: number): number | null {
  const { columns, line } = shape;
  const own = safeInteger(inBook?.[line]);
  const another = columns.some((_, place) => place !== line && !same(shape, place, [inBook, inReplay]));
  if (own !== null && own > lines && another) return lines + 1;
  return safeInteger((inReplay ?? inBook)?.[line]);
}

function shapeOf(sqlite: Database.Database, table: string): Shape {
  const info = sqlite.pragma(`table_info("${table}")`) as { name: string; pk: number }[];
  const columns = info.map(({ name }) => name);
  const parts = info.filter(({ pk }) => pk > 0).sort((a, b) => a.pk - b.pk);
  // The program's own table of migrations has a key that is always empty: its time is what orders it.
  const names = table === '__drizzle_migrations' ? ['created_at'] : parts.map(({ name }) => name);
  return { table, columns, key: names.map((name) => columns.indexOf(name)), line: columns.indexOf('line') };
}

function rowsOf(sqlite: Database.Database, { table, columns, key }: Shape): IterableIterator<Row> {
  const quoted = columns.map((name) => `"${name}"`);
  const order = key.map((place) => quoted[place]).join(', ');
  const statement = sqlite.prepare(`SELECT ${quoted.join(', ')} FROM "${table}" ORDER BY ${order}`);
  return statement.raw().safeIntegers().iterate() as IterableIterator<Row>;
}

function orderOf({ key }: Shape, a: Row | undefined, b: Row | undefined): number {
  if (!a || !b) return a ? -1 : 1;
  for (const place of key) {
    const order = compareCells(a[place] ?? null, b[place] ?? null);
    if (order !== 0) return order;
  }
  return 0;
}

function differenceOf(
  shape: Shape,
  book: Row | undefined,
  replay: Row | undefined,
): Omit<TableDifference, 'line'> | null {
  const at = shape.columns.findIndex((_, place) => !same(shape, place, [book, replay]));
  if (book && replay && at < 0) return null;
  const { table } = shape;
  const id = idOf(shape, replay ?? book ?? []);
  if (!book || !replay) {
    const [side, other] = book ? ['the book', 'the log does not'] : ['the log', 'the book does not'];
    const message = `Row ${id} of ${table}: ${side} has it, ${other}.`;
    return { kind: 'table', table, id, column: null, book: null, replay: null, message };
  }
  const cells = { book: showCell(book[at]), replay: showCell(replay[at]) };
  const column = shape.columns[at] ?? '';
  const message = `Row ${id} of ${table}: the book has ${JSON.stringify(cells.book)} as ${column}, the log makes it ${JSON.stringify(cells.replay)}.`;
  return { kind: 'table', table, id, column, ...cells, message };
}

/** A frozen document is older than the program that replays it: there the words may differ, and nothing else. */
function same({ columns }: Shape, place: number, [book, replay]: readonly [Row | undefined, Row | undefined]): boolean {
  const [ours, theirs] = [book?.[place], replay?.[place]];
  if (columns[place] !== FROZEN_COLUMN || typeof ours !== 'string' || typeof theirs !== 'string') {
    return sameCell(ours, theirs);
  }
  return sameFrozen(ours, theirs);
}

function idOf({ key }: Shape, row: Row): string {
  return key.map((place) => showCell(row[place])).join('/');
}

/** A value exactly as SQLite keeps it, whole numbers as bigint: 5 and 5.0 are not the same, nor 5 and '5'. */
export type Stored = bigint | number | string | Uint8Array | null;

export function sameCell(a: Stored | undefined, b: Stored | undefined): boolean {
  if (a instanceof Uint8Array && b instanceof Uint8Array) return Buffer.compare(a, b) === 0;
  return Object.is(a, b);
}

/** The order in which SQLite sorts values of a key: nothing, numbers, text by its bytes, bytes. */
function compareCells(a: Stored, b: Stored): number {
  const kinds = kindOf(a) - kindOf(b);
  if (kinds !== 0) return kinds;
  if (typeof a === 'string' || a instanceof Uint8Array) return Buffer.compare(bytesOf(a), bytesOf(b));
  return compareNumbers(a, b);
}

function compareNumbers(a: Stored, b: Stored): number {
  if (a === null || b === null) return 0;
  return a < b ? -1 : a > b ? 1 : 0;
}

function kindOf(value: Stored): number {
  if (value === null) return 0;
  if (typeof value === 'string') return 2;
  return typeof value === 'object' ? 3 : 1;
}

function bytesOf(value: Stored): Buffer {
  return typeof value === 'string' ? Buffer.from(value) : Buffer.from(value as Uint8Array);
}

/** A whole number that a double holds exactly, or null for anything else. */
function safeInteger(value: Stored | undefined): number | null {
  if (typeof value !== 'bigint') return null;
  const number = Number.parseInt(value.toString(), 10);
  return Number.isSafeInteger(number) ? number : null;
}

function showCell(value: Stored | undefined): Cell {
  if (value === undefined || value === null) return null;
  if (typeof value === 'bigint') return safeInteger(value) ?? value.toString();
  if (typeof value === 'object') return Buffer.from(value).toString('hex');
  return value;
}

/**
 * What of the open book has been written to since somebody last looked, one by one: so that a screen works out anew the
 * one seller number that a hammer price touched, and not the whole sale. The database itself notes it, in a table that
 * lives in memory with this connection and is no part of the book: whichever command writes a row, it is noted.
 */
import type { Book } from './open.ts';

/** `goods` are rows of goods under which a lot stands or stood; `kinds` are rows of goods that were themselves changed. */
type TouchedKind =
  | 'lot'
  | 'called'
  | 'handed'
  | 'bid'
  | 'seller'
  | 'buyer'
  | 'person'
  | 'people'
  | 'goods'
  | 'kinds'
  | 'sale';

/** The row ids of each kind that were touched. */
export type Touched = Readonly<Record<TouchedKind, ReadonlySet<number>>>;

/** How far somebody has looked. */
export interface Looked {
  readonly upTo: number;
  /** Moves where another connection has written: then nobody knows what. */
  readonly version: number;
}

type Note = readonly [kind: TouchedKind, column: string];

/**
 * What a change of a row of each table touches. `people` is that a seller number or a buyer is another person's now. A
 * table that is not named here touches everything; `NOTHING` are those on which no kept view of a sale rests.
 */
export const NOTES: Readonly<Record<string, readonly Note[]>> = {
  lot: [
    ['lot', 'id'],
    ['seller', 'seller_id'],
    ['goods', 'goods_id'],
  ],
  tag: [['lot', 'lot_id']],
  outcome: [['called', 'lot_id']],
  bid: [['bid', 'lot_id']],
  handover: [
    ['handed', 'lot_id'],
    ['buyer', 'buyer_id'],
  ],
  charge: [['seller', 'seller_id']],
  payment: [
    ['seller', 'seller_id'],
    ['buyer', 'buyer_id'],
  ],
  invoice: [['buyer', 'buyer_id']],
  settlement: [['seller', 'seller_id']],
  seller: [
    ['seller', 'id'],
    ['people', 'id'],
  ],
  partner: [
    ['seller', 'seller_id'],
    ['people', 'seller_id'],
  ],
  buyer: [['buyer', 'id']],
  particulars: [['person', 'person_id']],
  goods: [['kinds', 'id']],
  sale: [['sale', 'id']],
  commission_override: [['sale', 'sale_id']],
};

export const NOTHING: readonly string[] = [
  ...['association', 'person', 'log', 'worker', 'network', 'member_code', 'price_list_row', 'price_setting'],
  ...['drawer_entry', 'drawer_piece', 'dues', 'closing', 'seller_check'],
];

/** Beyond so many notes nobody goes through them one by one, and the older ones are dropped. */
const MOST = 20_000;

interface Watch {
  /** False where this connection writes nothing: then a change can only be another's. */
  readonly noting: boolean;
  readonly version: { get(): unknown };
  /** Notes up to here are gone. */
  droppedTo: number;
}

/** From here on. What is worked out after this and then brought up to date by {@link touchedSince} misses nothing. */
export function lookNow(book: Book): Looked {
  const watch = watchOf(book);
  return { upTo: newestNote(book, watch), version: watch.version.get() as number };
}

/** What was touched since; null where that is not known one by one, or is too much: then everything is made anew. */
export function touchedSince(book: Book, looked: Looked): Touched | null {
  const watch = watchOf(book);
  if (looked.version !== watch.version.get() || looked.upTo < watch.droppedTo) return null;
  const newest = newestNote(book, watch);
  if (newest === looked.upTo) return NONE;
  if (newest - looked.upTo > MOST) {
    drop(book, watch, newest - MOST);
    return null;
  }
  const notes = book.prepared('touched since', () =>
    book.sqlite.prepare<[number], NoteCells>('SELECT DISTINCT kind, id FROM temp.touched WHERE seq > ?').raw(),
  );
  const touched = nothingTouched();
  for (const [kind, id] of notes.all(looked.upTo) as NoteCells[]) touched[kind].add(id);
  if (newest - watch.droppedTo > 2 * MOST) drop(book, watch, newest - MOST);
  // What is of no known table touches everything.
  return touched.sale.has(EVERYTHING) ? null : touched;
}

type NoteCells = readonly [kind: TouchedKind, id: number];
const EVERYTHING = 0;
const NONE: Touched = nothingTouched();

function nothingTouched(): Record<TouchedKind, Set<number>> {
  const none = () => new Set<number>();
  return {
    ...{
      lot: none(),
      called: none(),
      handed: none(),
      bid: none(),
      seller: none(),
      buyer: none(),
      person: none(),
      people: none(),
    },
    ...{ goods: none(), kinds: none(), sale: none() },
  };
}

function newestNote(book: Book, { noting }: Watch): number {
  if (!noting) return 0;
  const newest = book.prepared('newest touched', () =>
    book.sqlite.prepare<[], number | null>('SELECT max(seq) FROM temp.touched').pluck(),
  );
  return newest.get() ?? 0;
}

/** The newest note always stays: by it the next one gets its number. */
function drop(book: Book, watch: Watch, upTo: number): void {
  book.prepared('drop touched', () => book.sqlite.prepare('DELETE FROM temp.touched WHERE seq < ?')).run(upTo);
  watch.droppedTo = upTo;
}

function watchOf(book: Book): Watch {
  return book.prepared('watch what is touched', () => {
    const { sqlite } = book;
    const noting = !sqlite.readonly && sqlite.pragma('query_only', { simple: true }) === 0;
    if (noting) beginNoting(book);
    return { noting, version: sqlite.prepare('PRAGMA data_version').pluck(), droppedTo: 0 };
  });
}

function beginNoting({ sqlite }: Book): void {
  // A full disk must not be in the way of a note that is kept in memory.
  sqlite.pragma('temp_store = MEMORY');
  sqlite.exec('CREATE TEMP TABLE touched (seq INTEGER PRIMARY KEY, kind TEXT NOT NULL, id INTEGER NOT NULL)');
  const tables = (sqlite.pragma('main.table_list') as { readonly schema: string; readonly name: string }[])
    .filter(({ schema, name }) => schema === 'main' && !name.startsWith('sqlite_'))
    .map(({ name }) => name);
  for (const table of tables) if (!NOTHING.includes(table)) sqlite.exec(triggersOf(table));
}

const ACTS = { INSERT: ['new'], DELETE: ['old'], UPDATE: ['old', 'new'] } as const;

function triggersOf(table: string): string {
  const own: readonly Note[] = NOTES[table] ?? [['sale', String(EVERYTHING)]];
  return Object.entries(ACTS)
    .map(([act, rows]) => {
      const notes = rows.flatMap((row) => own.map((note) => noteOf(row, note)));
      return `CREATE TEMP TRIGGER "touched_${table}_${act}" AFTER ${act} ON main."${table}" BEGIN ${notes.join(' ')} END;`;
    })
    .join('\n');
}

function noteOf(row: 'old' | 'new', [kind, column]: Note): string {
  const id = column === String(EVERYTHING) ? column : `${row}."${column}"`;
  return `INSERT INTO touched (kind, id) SELECT '${kind}', ${id} WHERE ${id} IS NOT NULL;`;
}

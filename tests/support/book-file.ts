import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { expect, onTestFinished, vi } from 'vitest';
import { bankEntries } from '#db/bank/queries.ts';
import { STATIONS } from '#db/book/command.ts';
import { migrations } from '#db/book/migrate.ts';
import { openQuietly } from '#db/book/open-for-reading.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { bobcatTag, GOODS, type Hall, openHall, rowsOf, SALE } from './hall.ts';
import { tempFile, tempFolder } from './temp.ts';

/** Reads a book's file apart from the program's own queries, also one that is damaged. */

export function readFrom<T>(file: string, sql: string): T[] {
  const sqlite = openQuietly(file);
  try {
    return sqlite.prepare(sql).all() as T[];
  } finally {
    sqlite.close();
  }
}

/** The first log line of a command, or undefined where it was never given. */
export function firstLineOf(file: string, command: string): number | undefined {
  return readFrom<{ n: number }>(file, `SELECT min(seq) AS n FROM log WHERE command = '${command}'`)[0]?.n;
}

export function rowsOfFile(file: string): Record<string, unknown[]> {
  const sqlite = openQuietly(file);
  try {
    return rowsOf({ sqlite });
  } finally {
    sqlite.close();
  }
}

/** The rows of a restored book without the line that begins its epoch, to be held against those of its backup. */
export function rowsRestored(file: string): Record<string, unknown[]> {
  const { log = [], takeover = [], ...rows } = rowsOfFile(file);
  expect([log.at(-1), takeover.at(-1)]).toMatchObject([{ command: 'book.takeover' }, { kind: 'restore' }]);
  return { ...rows, log: log.slice(0, -1), takeover: takeover.slice(0, -1) };
}

/** Damages a copy of a book, in its bytes or behind the back of its triggers. */

export function copyOf(file: string): string {
  const copy = tempFile();
  copyFileSync(file, copy);
  return copy;
}

/** A copy in which one bit of one byte is another. */
export function withBitFlipped(file: string, place: number, bit = 0): string {
  const bytes = readFileSync(file);
  bytes[place] = (bytes[place] ?? 0) ^ (1 << bit);
  const copy = tempFile();
  writeFileSync(copy, bytes);
  return copy;
}

/** A copy in which the last bit of the first letter of `text` is another, wherever `text` stands for the `nth` time. */
export function withTextFlipped(file: string, text: string, nth = 1): string {
  const bytes = readFileSync(file);
  let place = -1;
  for (let seen = 0; seen < nth; seen += 1) place = bytes.indexOf(text, place + 1);
  if (place < 0) throw new Error(`${text} stands nowhere in the file`);
  return withBitFlipped(file, place);
}

/** A copy on which SQL was run (or other work done) that no trigger, check or reference could stop. The triggers are there again after it. */
export function withSql(file: string, work: string | ((sqlite: Database.Database) => void)): string {
  const copy = copyOf(file);
  const sqlite = new Database(copy);
  // The copy need not outlive a power cut, and a hundred triggers go and come back in one write each.
  sqlite.pragma('synchronous = OFF');
  sqlite.pragma('foreign_keys = OFF');
  sqlite.pragma('ignore_check_constraints = ON');
  const triggers = sqlite.prepare("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").all();
  const atOnce = (statements: readonly string[]) => sqlite.exec(['BEGIN', ...statements, 'COMMIT'].join(';\n'));
  atOnce((triggers as { name: string }[]).map(({ name }) => `DROP TRIGGER "${name}"`));
  if (typeof work === 'string') sqlite.exec(work);
  else work(sqlite);
  atOnce((triggers as { sql: string }[]).map(({ sql }) => sql));
  sqlite.close();
  return copy;
}

/** A small book on disk in which every command that fills a table was given, closed and whole. */

/** Text that stands in the book in one place, for finding it among the bytes. */
export const MARKS = { note: 'pale flanks', partner: 'Zoë Quist', reason: 'misheard the price' } as const;

/** The form of a passphrase's hash; nobody's passphrase. */
const MARK = 'a'.repeat(64);

/** Makes the book; returns its file. */
export function fullBook(): string {
  const file = tempFile();
  const { book, saleId, must } = openHall({ file, stage: 'selling' });
  must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow' });
  const zoe = must('person.enrol', { name: MARKS.partner }).personId;
  const sharing = [
    { personId: 1, parts: 2 },
    { personId: zoe, parts: 1 },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners: sharing, broughtBy: '' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '13', note: MARKS.note, size: 'XL', grade: 'I' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'castor', weight: '7.35', minimum: '2.00' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '4' });
  const left = must('bid.leave', { saleId, lotNo: '1', buyerNo: 11, kind: 'left', price: '6.00' }).bidId;
  must('bid.retract', { bidId: left });
  const sold = must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const right = { kind: 'sold', price: '7.75', buyerNo: 10, reason: MARKS.reason } as const;
  must('outcome.correct', { lotId: sold.lotId, replacesId: sold.outcomeId, ...right });
  must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
  must('outcome.record', { saleId, lotNo: '3', kind: 'sold', price: '125.00', buyerNo: 11 });
  const passed = must('outcome.record', { saleId, lotNo: '4', kind: 'passed' });
  must('outcome.reopen', { lotId: passed.lotId, replacesId: passed.outcomeId, reason: 'a bid as the hammer fell' });
  must('charge.add', { saleId, sellerNo: 2, kind: 'dues', amount: '25.00', how: 'deducted' });
  must('taking.record', { saleId, kind: 'raffle', amount: '12.00' });
  const dues = { amount: '25.00', how: 'cash', memberUntil: '2026-12-31' } as const;
  must('dues.take', { saleId, personId: zoe, sellerNo: null, ...dues }, 'intake');
  const check = { direction: 'in', buyerNo: 10, method: 'check', amount: '50.00', reference: '1041' } as const;
  const { paymentId } = must('payment.record', { saleId, ...check });
  must('settlement.issue', { saleId, sellerNo: 2 }, 'payout');
  must('check.write', { saleId, sellerNo: 2, firstNumber: 1001 }, 'payout');
  must('bank.deposit', { saleId, paymentIds: [paymentId] }, 'payout');
  must('bank.clear', { entryIds: bankEntries(book).map(({ entryId }) => entryId), day: '2026-02-28' }, 'payout');
  must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'card', amount: '5.00' });
  must('bank.arrive', { saleId, method: 'card', amount: '5.00', arrived: '5.00' }, 'payout');
  closeEmptySale(must);
  must('drawer.record', { saleId, kind: 'opened', pieces: [{ denomination: '20', pieces: '5' }] });
  const more = { amount: '300.00', answered: ['more_than_owed'] } as const;
  must('payment.record', { saleId, direction: 'in', buyerNo: 11, method: 'cash', ...more });
  must('drawer.record', { saleId, kind: 'counted', pieces: [{ denomination: '20', pieces: '20' }], checks: '0' });
  must('invoice.issue', { saleId, buyerNo: 11 });
  must('handover.record', { saleId, buyerNo: 11, lots: ['3'], pieces: '2', takenBy: 'Cal Dunn' });
  must('prices.import', {
    file: 'old.csv',
    rows: [[2, { season: '1998-99', goods: 'mink', count: '4', price: '9.50' }]],
  });
  must('prices.fewest', { fewest: 2 });
  must('network.set', { hosts: ['hall.test'], plainStaff: true, reason: 'the certificate is not made yet' });
  must('member.code', { personId: zoe, codeHash: 'a'.repeat(64), minutes: 10 });
  must('member.enter', { codeHash: 'a'.repeat(64) });
  must('book.takeover', { kind: 'takeover', laptop: 'table two', reason: 'the first laptop fell' });
  // Last but one, as from here on the door asks who is at which station.
  must('worker.add', { name: 'Ada', stations: [...STATIONS], passphraseMark: MARK });
  must('person.amend', { personId: zoe, name: MARKS.partner, city: 'Cold Fork' });
  book.close();
  return file;
}

/** A sale to which nobody came, so that the book knows a closing. */
function closeEmptySale(must: Hall['must']): void {
  const { saleId } = must('sale.plan', {
    sale: { ...SALE, name: 'Snowed-in Sale', held_on: '2025-01-18' },
    goods: GOODS,
  });
  for (const stage of STAGES.slice(1)) must('sale.stage', { saleId, stage, reason: '' });
}

// A book as an older version of the program left it. The program has one migration until 1.0, so here it becomes a later version for the rest of a test: the older one knew neither closings nor the time zone, and an update adds both.

const BREAK = '--> statement-breakpoint\n';
const TAKEN_OUT = ['DROP TABLE closing;', 'ALTER TABLE association DROP COLUMN time_zone;'];
const ADDED = "ALTER TABLE association ADD time_zone text DEFAULT '' NOT NULL;";

/** Makes the book with a few lots in it; returns its file. */
export function olderBook(): string {
  const [source, older] = [tempFile(), tempFile()];
  const { book, saleId, must } = openHall({ file: source });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '13' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const closing = "SELECT sql || ';' FROM sqlite_master WHERE tbl_name = 'closing' AND sql IS NOT NULL ORDER BY rowid";
  const additions = [ADDED, ...book.sqlite.prepare<[], string>(closing).pluck().all()];
  book.close();
  const [first] = ownMigrations();
  const was = [first, ...TAKEN_OUT].join(BREAK);
  fillOlder(older, source, folderOf([was]));
  const later = folderOf([was, additions.join(BREAK)]);
  const spy = vi.spyOn(migrations, 'folder').mockReturnValue(later);
  onTestFinished(() => spy.mockRestore());
  return older;
}

/** The texts of the program's own migrations. */
function ownMigrations(): string[] {
  const folder = migrations.folder();
  const journal = JSON.parse(readFileSync(join(folder, 'meta', '_journal.json'), 'utf8')) as Journal;
  return journal.entries.map(({ tag }) => readFileSync(join(folder, `${tag}.sql`), 'utf8'));
}

interface Journal {
  readonly entries: readonly { readonly tag: string }[];
}

/** A folder of migrations as drizzle-kit leaves it, without the snapshots that only itself reads. */
function folderOf(texts: readonly string[]): string {
  const folder = tempFolder('migrations');
  mkdirSync(join(folder, 'meta'));
  const entries = texts.map((_, idx) => ({ idx, version: '6', when: idx + 1, tag: `${idx}`, breakpoints: true }));
  for (const [idx, text] of texts.entries()) writeFileSync(join(folder, `${idx}.sql`), text);
  writeFileSync(join(folder, 'meta', '_journal.json'), JSON.stringify({ version: '7', dialect: 'sqlite', entries }));
  return folder;
}

function fillOlder(older: string, source: string, migrationsFolder: string): void {
  const sqlite = new Database(older);
  migrate(drizzle(sqlite), { migrationsFolder });
  sqlite.pragma('foreign_keys = OFF');
  sqlite.exec(`ATTACH '${source}' AS newer`);
  const tables = sqlite.prepare("SELECT name FROM main.sqlite_master WHERE type = 'table'").pluck().all() as string[];
  for (const table of tables.filter((name) => !name.startsWith('_'))) copyRows(sqlite, table);
  sqlite.close();
}

function copyRows(sqlite: Database.Database, table: string): void {
  const columns = sqlite.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
  const list = columns.map((name) => `"${name}"`).join(', ');
  sqlite.exec(`INSERT INTO main."${table}" (${list}) SELECT ${list} FROM newer."${table}"`);
}

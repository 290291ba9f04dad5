/** Proves a book: the file, the chain of its log, the replay of the log, and the money. Writes nothing. */
import { resolve } from 'node:path';
import type Database from 'better-sqlite3';
import { asc } from 'drizzle-orm';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { journalProblems } from '#db/account/check.ts';
import { assertBook, assertPresent } from '#db/book/check-file.ts';
import { CannotOpenBook } from '#db/book/files.ts';
import { EMPTY_HEAD } from '#db/book/log.ts';
import { appliedCount, bringUpToDate, knownCount } from '#db/book/migrate.ts';
import { type Book, bookToRead } from '#db/book/open.ts';
import { openInMemory, openQuietly } from '#db/book/open-for-reading.ts';
import { redactionsIn } from '#db/book/redact.ts';
import { type Replayed, replayLog } from '#db/book/replay.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { sale } from '#db/schema/index.ts';
import { moneyProblems } from '#lib/report/balance.ts';
import { checkChain, checkForeignKeys, checkIntegrity, logLines, messageOf } from './chain.ts';
import type { Difference, ReplayReport, VerifyReport } from './report.ts';
import { compareTable, tableNames } from './tables.ts';

/** Verifies the book at `file`. A damaged file, or none, is a report and no fault. */
export function verifyBook(file: string): VerifyReport {
  const path = resolve(file);
  let sqlite: Database.Database | undefined;
  try {
    assertPresent(path, false);
    sqlite = openQuietly(path);
    assertBook(sqlite, path, false);
    return verifyOpen(path, sqlite);
  } catch (fault) {
    return cannotOpen(path, fault);
  } finally {
    sqlite?.close();
  }
}

/** One read transaction over all parts, so that entries made meanwhile do not look like differences. */
function verifyOpen(file: string, sqlite: Database.Database): VerifyReport {
  sqlite.exec('BEGIN');
  try {
    return summed({
      file,
      opened: { ok: true, message: 'The file is a book.' },
      integrity: checkIntegrity(sqlite),
      foreignKeys: checkForeignKeys(sqlite),
      chain: checkChain(sqlite),
      ...checkContents(file, sqlite),
    });
  } finally {
    // SQLite ends the transaction by itself where it meets a damaged page.
    if (sqlite.inTransaction) sqlite.exec('ROLLBACK');
  }
}

/** The parts that need the tables as this version of the program has them. */
function checkContents(file: string, sqlite: Database.Database): Pick<VerifyReport, 'replay' | 'money'> {
  const copy = upToDateCopy(sqlite);
  try {
    const current = copy ?? sqlite;
    return { replay: checkReplay(current), money: checkMoney(bookToRead(file, current)) };
  } finally {
    copy?.close();
  }
}

type Parts = Omit<VerifyReport, 'ok' | 'problems' | 'firstBadLine'>;

/** The whole report from its parts: what is wrong, and the earliest log line that any part names. */
function summed(parts: Parts): VerifyReport {
  const { opened, integrity, foreignKeys, chain, replay, money } = parts;
  const all = [opened, integrity, foreignKeys, chain, replay, money];
  const problems = [...new Set(all.filter(({ ok }) => !ok).map(({ message }) => message))];
  const { difference } = replay;
  const lines = [chain.firstBadLine, difference === null || difference.kind === 'schema' ? null : difference.line];
  const bad = lines.filter((line) => line !== null);
  const firstBadLine = bad.length === 0 ? null : Math.min(...bad);
  return { ok: problems.length === 0, firstBadLine, problems, ...parts };
}

/** The report of a file that cannot be opened as a book. */
function cannotOpen(file: string, fault: unknown): VerifyReport {
  const message = fault instanceof CannotOpenBook ? fault.message : `${file} cannot be read: ${messageOf(fault)}.`;
  const part = { ok: false, message: 'Not looked at, because the file cannot be opened as a book.' };
  return {
    ok: false,
    file,
    firstBadLine: null,
    problems: [message],
    opened: { ok: false, message },
    integrity: { ...part, messages: [] },
    foreignKeys: { ...part, broken: [] },
    chain: { ...part, lines: 0, head: EMPTY_HEAD, firstBadLine: null },
    replay: { ...part, lines: 0, differences: 0, difference: null },
    money: { ...part, sales: 0, problems: [] },
  };
}

/**
 * A copy in memory, brought up to date, of a book that an older version wrote; null where the book is up to date.
 * The file itself is only looked at: it is brought up to date when somebody opens it to work with it.
 */
function upToDateCopy(sqlite: Database.Database): Database.Database | null {
  if (appliedCount(sqlite) === knownCount()) return null;
  const copy = openInMemory(sqlite.serialize());
  bringUpToDate(copy, drizzle(copy));
  return copy;
}

/** Replays the log of a book and compares what comes out with what the book holds, row by row. */
export function checkReplay(sqlite: Database.Database): ReplayReport {
  let replayed: Replayed | undefined;
  try {
    replayed = replayLog(logLines(sqlite), redactionsIn(sqlite));
    return reportOf(replayed, replayed.difference ? [replayed.difference] : differences(sqlite, replayed));
  } catch (fault) {
    const message = `The log could not be replayed: ${messageOf(fault)}.`;
    return { ok: false, message, lines: replayed?.lines ?? 0, differences: 1, difference: null };
  } finally {
    replayed?.book.close();
  }
}

function reportOf({ lines }: Replayed, found: Iterable<Difference>): ReplayReport {
  let differences = 0;
  let difference: Difference | null = null;
  for (const one of found) {
    differences += 1;
    if (difference === null || lineOf(one) < lineOf(difference)) difference = one;
  }
  const ok = difference === null;
  const message = difference?.message ?? `${lines} lines, given again, make the same book.`;
  return { ok, message, lines, differences, difference };
}

function lineOf(difference: Difference): number {
  return difference.kind === 'schema' ? 0 : (difference.line ?? Number.POSITIVE_INFINITY);
}

function* differences(sqlite: Database.Database, { book, lines }: Replayed): Generator<Difference> {
  const schema = [...compareSchema(sqlite, book.sqlite)];
  if (schema.length > 0) {
    // Rows of tables with other columns cannot be set side by side.
    yield* schema;
    return;
  }
  // The log itself was compared line by line while it was given again.
  const tables = tableNames(book.sqlite).filter((name) => name !== 'log');
  for (const table of tables) yield* compareTable(table, { book: sqlite, replay: book.sqlite, lines });
}

const SCHEMA = "SELECT type || ' ' || name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'";

function* compareSchema(ours: Database.Database, theirs: Database.Database): Generator<Difference> {
  const book = schemaOf(ours);
  const replay = schemaOf(theirs);
  for (const name of new Set([...replay.keys(), ...book.keys()])) {
    if (book.get(name) === replay.get(name)) continue;
    const what = !book.has(name) ? 'is missing' : replay.has(name) ? 'was changed' : 'is not the program’s';
    yield { kind: 'schema', name, message: `The ${name} ${what}.` };
  }
}

function schemaOf(sqlite: Database.Database): Map<string, string | null> {
  return new Map(sqlite.prepare(SCHEMA).raw().all() as [string, string | null][]);
}

/** The money of every sale in the book, checked by the rules of `lib/report/balance.ts`. */
export function checkMoney(book: Book): VerifyReport['money'] {
  try {
    const columns = { id: sale.id, name: sale.name, heldOn: sale.heldOn };
    const sales = book.db.select(columns).from(sale).orderBy(asc(sale.id)).all();
    const problems = sales.flatMap((one) =>
      problemsOf(book, one).map((problem) => `${one.name} of ${one.heldOn}: ${problem}`),
    );
    const message = problems[0] ?? `The money of ${sales.length} sales adds up.`;
    return { ok: problems.length === 0, message, sales: sales.length, problems };
  } catch (fault) {
    const message = `The sales cannot be read: ${messageOf(fault)}.`;
    return { ok: false, message, sales: 0, problems: [message] };
  }
}

/** A sale that cannot even be read, such as one with half a cent in it, is a finding and no fault. */
function problemsOf(book: Book, { id }: { readonly id: number }): string[] {
  try {
    const facts = saleFacts(book, id);
    return [...moneyProblems(facts), ...journalProblems(book, id, facts)];
  } catch (fault) {
    return [`it cannot be settled: ${messageOf(fault)}.`];
  }
}

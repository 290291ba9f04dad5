/** Replays the log of a book and compares what comes out with what the book holds, row by row. */
import type Database from 'better-sqlite3';
import { redactionsIn } from '../redact.ts';
import { type Replayed, replayLog } from '../replay.ts';
import { logLines, messageOf } from './chain.ts';
import type { Difference, ReplayReport } from './report.ts';
import { compareTable, tableNames } from './tables.ts';

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

/** Whether two databases hold the same: every row of every table, cell by cell. */
import type Database from 'better-sqlite3';
import { type Stored, sameCell } from './tables.ts';

const SCHEMA = 'SELECT type, name, tbl_name, sql FROM sqlite_master ORDER BY type, name';
const TABLES = "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name";

/** What a copy holds otherwise than the original, in a few words; null where they hold the same. */
export function differenceInContents(copy: Database.Database, original: Database.Database): string | null {
  const both = [copy, original] as const;
  for (const query of ['PRAGMA application_id', 'PRAGMA user_version', SCHEMA]) {
    if (differs(both, query) !== null) return 'its tables are others';
  }
  for (const table of original.prepare<[], string>(TABLES).pluck().all()) {
    const place = differs(both, `SELECT * FROM "${table}"`);
    if (place !== null) return `row ${place} of ${table} is another`;
  }
  return null;
}

/** The place of the first row that differs, counted from 1; null where all rows are the same in the same order. */
function differs([one, other]: readonly [Database.Database, Database.Database], query: string): number | null {
  const [ours, theirs] = [rowsOf(one, query), rowsOf(other, query)];
  try {
    for (let place = 1; ; place += 1) {
      const [a, b] = [ours.next(), theirs.next()];
      if (a.done && b.done) return null;
      if (a.done || b.done || !a.value.every((cell, at) => sameCell(cell, b.value[at]))) return place;
    }
  } finally {
    // A walk that is not at its end keeps its connection busy.
    ours.return?.();
    theirs.return?.();
  }
}

function rowsOf(sqlite: Database.Database, query: string): IterableIterator<readonly Stored[]> {
  return sqlite.prepare(query).raw().safeIntegers().iterate() as IterableIterator<readonly Stored[]>;
}

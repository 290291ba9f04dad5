/** Reads a book's file apart from the program's own queries, also one that is damaged. */
import { openQuietly } from '#db/open-quietly.ts';
import { rowsOf } from '#tests/support/hall.ts';

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

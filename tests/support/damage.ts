/** Damages a copy of a book, in its bytes or behind the back of its triggers. */
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { tempFile } from '#tests/support/temp.ts';

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

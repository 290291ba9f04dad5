import { appliedCount, knownCount } from './migrate.ts';
import { type Book, bookToRead } from './open.ts';
import { openQuietly } from './open-quietly.ts';

/**
 * Opens a book that cannot be written, to show what is in it.
 * @returns `older` where its tables are those of another version, to which this program's questions cannot be put.
 * @throws where SQLite cannot read the file.
 */
export function openToRead(file: string): Book | 'older' {
  const sqlite = openQuietly(file);
  try {
    if (appliedCount(sqlite) === knownCount()) return bookToRead(file, sqlite);
  } catch (fault) {
    sqlite.close();
    throw fault;
  }
  sqlite.close();
  return 'older';
}

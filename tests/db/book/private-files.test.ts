import { chmodSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { shutToOthers } from '#db/book/private-files.ts';
import { openStore } from '#db/sign-in/store.ts';
import { tempFile } from '#tests/support/temp.ts';

const modeOf = (path: string) => (statSync(path).mode & 0o777).toString(8);

it('shuts to others what they could read of a book and its backups, says so, and says nothing the next time', () => {
  const file = tempFile();
  const book = openBook(file, { create: true });
  const store = openStore(file);
  const backups = join(dirname(file), 'backups');
  mkdirSync(backups);
  const copy = join(backups, 'one.book');
  writeFileSync(copy, '');
  const files = [file, `${file}-wal`, `${file}.sign-ins`, copy];
  for (const one of files) chmodSync(one, 0o644);
  chmodSync(backups, 0o755);
  const said = shutToOthers(file, [backups, join(backups, 'missing')]);
  expect(said).toContain(`Others on this machine could read ${file}: it is shut now.`);
  expect(said).toHaveLength([...files, `${file}-shm`, `${file}.sign-ins-wal`, `${file}.sign-ins-shm`, backups].length);
  expect(files.map(modeOf)).toEqual(files.map(() => '600'));
  expect(modeOf(backups)).toBe('700');
  expect(shutToOthers(file, [backups])).toEqual([]);
  store.close();
  book.close();
});

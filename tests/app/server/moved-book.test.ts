import { copyFileSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { give } from '#app/server/answer-entry.ts';
import { lookAtFile } from '#app/server/look-at-file.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { serverState, troubleNow } from '#app/server/state.ts';
import { copiesIn } from '#db/book/copies.ts';
import { hashAt, logHead, newestLine } from '#db/book/log.ts';
import { type Book, openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { watchFile } from '#db/book/watch-file.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { fullBook } from '#tests/support/book-file.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

const WHOLE = fullBook();

let file: string;
let book: Book;
let given = 0;

/** Serves a book in this process, as app/server/serve.mjs does. */
beforeEach(() => {
  file = join(tempFolder(), 'lantern.book');
  copyFileSync(WHOLE, file);
  vi.stubEnv('PELTRY_BOOK', file);
  vi.stubEnv('PELTRY_BACKUP_MINUTES', '0');
  vi.spyOn(console, 'error').mockReturnValue();
  const opened = openServerBook();
  if (!opened) throw new Error('The book of this test was not opened.');
  book = opened;
});
afterEach(() => {
  const here = serverState();
  here.book?.close();
  here.claim?.release();
  Object.assign(here, { book: undefined, claim: undefined, watch: undefined, trouble: null });
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
});

function enrol() {
  given += 1;
  const envelope = { command: 'person.enrol', worker: 'a test', station: 'office', key: `moved-${given}` } as const;
  return give(book, { ...envelope, at: '2026-03-01T10:00:00.000Z', input: { name: `Dee Elm ${given}` } });
}

/** The copy that the page about the trouble names, once it does. */
async function rescued(): Promise<string> {
  await expect.poll(() => troubleNow()?.safe).toContain('in this copy');
  const [copy] = copiesIn(join(dirname(file), 'backups'), file);
  expect(troubleNow()?.safe).toContain(copy?.file);
  expect(troubleNow()?.toDo).toContain(`Restore the copy ${copy?.file}`);
  // The copy is replayed as well, in a process of its own, and what came of it stands beside it.
  await expect.poll(() => troubleNow()?.safe).toContain('Replaying it gave the same book.');
  expect(copiesIn(join(dirname(file), 'backups'), file)[0]?.about?.proof).toMatchObject({ ok: true });
  return copy?.file ?? '';
}

const aside = () => join(dirname(file), 'aside');

/** What somebody does to the book's files behind the program's back. */
const WAYS: readonly (readonly [string, () => void, string])[] = [
  ['moved', () => renameSync(file, `${file}.old`), 'was moved or deleted'],
  ['deleted', () => rmSync(file), 'was moved or deleted'],
  [
    'deleted with all that stands beside it',
    () => {
      for (const beside of ['', '-wal', '-shm']) rmSync(`${file}${beside}`);
    },
    'was moved or deleted',
  ],
  [
    'replaced by an older one',
    () => {
      copyFileSync(WHOLE, `${file}.new`);
      renameSync(`${file}.new`, file);
    },
    'another file was put in the place of',
  ],
  ['left without its write-ahead log', () => rmSync(`${file}-wal`), 'lantern.book-wal was moved or deleted'],
  [
    'moved with its folder',
    () => {
      renameSync(dirname(file), `${dirname(file)}-away`);
      mkdirSync(dirname(file));
    },
    'was moved or deleted',
  ],
];

describe('a book whose file goes while it is served', () => {
  it.each(WAYS)('because it was %s acknowledges nothing more, and is copied whole', async (_, bring, words) => {
    for (let entry = 0; entry < 5; entry += 1) expect(enrol()).toMatchObject({ ok: true });
    const head = logHead(book);
    bring();
    for (let entry = 0; entry < 5; entry += 1) {
      expect(enrol()).toMatchObject({ stopped: { kind: 'moved', happened: expect.stringContaining(words) } });
    }
    expect(newestLine(book)).toBe(head.seq);
    const fresh = tempFile('fresh.book');
    expect(await restoreBook(await rescued(), fresh, new Date())).toMatchObject({
      ok: true,
      equal: true,
      logHead: head,
    });
  });

  it('while an entry is being written is not acknowledged, and the entry is in the copy', async () => {
    const { watch } = serverState();
    let looks = 0;
    serverState().watch = () => {
      looks += 1;
      if (looks === 2) rmSync(file);
      return watch?.() ?? null;
    };
    const before = newestLine(book);
    expect(enrol()).toMatchObject({ stopped: { kind: 'moved' } });
    expect(verifyBook(await rescued())).toMatchObject({ ok: true, chain: { head: { seq: before + 1 } } });
  });

  it('is found by whoever opens a page, and told once', async () => {
    rmSync(file);
    expect(lookAtFile()).toMatchObject({ kind: 'moved' });
    await rescued();
    expect(lookAtFile()).toMatchObject({ kind: 'moved' });
    expect(readdirSync(join(dirname(file), 'backups')).filter((name) => name.endsWith('.book'))).toHaveLength(1);
  });

  it('goes on when everything was put back, with all that was saved', async () => {
    expect(enrol()).toMatchObject({ ok: true });
    const head = logHead(book);
    mkdirSync(aside());
    const names = readdirSync(dirname(file)).filter((name) => /\.book(-wal|-shm)?$/.test(name));
    for (const name of names) renameSync(join(dirname(file), name), join(aside(), name));
    expect(enrol()).toMatchObject({ stopped: { kind: 'moved' } });
    await rescued();
    for (const name of names) renameSync(join(aside(), name), join(dirname(file), basename(name)));
    expect(lookAtFile()).toBeNull();
    serverState().book?.close();
    serverState().book = undefined;
    book = openServerBook() ?? book;
    expect(troubleNow()).toBeNull();
    expect(hashAt(book, head.seq)).toBe(head.hash);
    expect(enrol()).toMatchObject({ ok: true });
  });

  it('says so where no place takes the copy', async () => {
    // A file stands where the folder of the backups ought to be, and the book's own is gone.
    vi.stubEnv('PELTRY_BACKUPS', WHOLE);
    rmSync(dirname(file), { recursive: true });
    expect(enrol()).toMatchObject({ stopped: { kind: 'moved' } });
    await expect.poll(() => troubleNow()?.safe).toContain('It could not be copied: ');
    expect(troubleNow()?.toDo).toMatch(/^Do not stop the program/);
  });
});

describe('the look at the files of a book', () => {
  // 5 microseconds on an idle machine; the limit is for one with much else to do.
  it('costs an entry next to nothing', () => {
    const other = tempFile();
    const open = openBook(other, { create: true });
    const watch = watchFile(other);
    const looks = 2000;
    const begun = performance.now();
    for (let look = 0; look < looks; look += 1) expect(watch()).toBeNull();
    console.log(`A look at the files: ${(((performance.now() - begun) * 1000) / looks).toFixed(1)} microseconds`);
    open.close();
  });
});

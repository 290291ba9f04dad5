import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { give } from '#app/server/answer-entry.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { serverState, troubleNow } from '#app/server/state.ts';
import { copiesIn } from '#db/book/copies.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { logHead, newestLine } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { chance, rounds } from '#tests/faults/support/chance.ts';
import { fullBook } from '#tests/support/book-file.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

const WHOLE = fullBook();
const FRAMES_FROM = 32;

let file: string;
let folder: string;

beforeEach(() => ready());
afterEach(() => {
  stop();
  vi.unstubAllEnvs();
});

function ready(): void {
  file = join(tempFolder(), 'lantern.book');
  folder = join(dirname(file), 'backups');
  mkdirSync(folder);
  copyFileSync(WHOLE, file);
  vi.stubEnv('PELTRY_BOOK', file);
  vi.stubEnv('PELTRY_BACKUP_MINUTES', '0');
}

const start = () => {
  const book = openServerBook();
  if (!book) throw new Error(`No book was opened: ${troubleNow()?.happened}`);
  return book;
};
function stop(): void {
  const here = serverState();
  here.book?.close();
  here.claim?.release();
  Object.assign(here, { book: undefined, claim: undefined, watch: undefined, trouble: null });
}

/** Enters five persons and keeps a copy, as a server does that is then killed: the entries are in the -wal alone. */
async function enterFive(hour = '19'): Promise<{ readonly seq: number; readonly hash: string }> {
  const book = openBook(file);
  for (let entry = 0; entry < 5; entry += 1) {
    accepted(giveTo(book, 'person.enrol', { input: { name: `Dee Elm ${entry}` }, at: `2026-02-28T${hour}:05:00Z` }));
  }
  const head = logHead(book);
  await keepCopy(file, folder, new Date(`2026-02-28T${hour}:10:00Z`));
  const left = tempFile();
  for (const beside of ['', '-wal']) copyFileSync(`${file}${beside}`, `${left}${beside}`);
  book.close();
  rmSync(`${file}-shm`, { force: true });
  for (const beside of ['', '-wal']) renameSync(`${left}${beside}`, `${file}${beside}`);
  return head;
}

const { below } = chance('lost ends');
const wal = () => `${file}-wal`;

const LOSSES: readonly (readonly [string, () => void])[] = [
  ['deleted', () => rmSync(wal())],
  ['emptied', () => truncateSync(wal(), 0)],
  ['cut in the first frame', () => truncateSync(wal(), FRAMES_FROM + 100)],
  ['cut somewhere', () => truncateSync(wal(), FRAMES_FROM + below(readFileSync(wal()).length - FRAMES_FROM))],
  ['flipped in its head', () => flip(below(24))],
  ['flipped in its first frame', () => flip(FRAMES_FROM + below(4096))],
  ['flipped somewhere', () => flip(FRAMES_FROM + below(readFileSync(wal()).length - FRAMES_FROM))],
  ['replaced by zeros', () => writeFileSync(wal(), Buffer.alloc(readFileSync(wal()).length))],
];

function flip(place: number): void {
  const bytes = readFileSync(wal());
  bytes[place] = (bytes[place] ?? 0) ^ (1 << below(8));
  writeFileSync(wal(), bytes);
}

/** Three starts find it and take nothing; then the backup is restored and the next start is well. */
async function isFoundAtEveryStart(lose: () => void): Promise<void> {
  const head = await enterFive();
  lose();
  const [copy] = copiesIn(folder, file);
  for (let round = 0; round < 3; round += 1) {
    const book = start();
    const missing = head.seq - newestLine(book);
    expect(missing).toBeGreaterThan(0);
    const trouble = troubleNow();
    const entries = missing === 1 ? '1 entry' : `${missing} entries`;
    expect(trouble?.happened).toBe(
      `The book lacks ${entries} that the backup ${copy?.file} has. The first was made on Feb 28, 2026, 7:05 PM UTC.`,
    );
    expect(trouble?.toDo).toContain(`npm run --silent book -- restore ${copy?.file} --book ${file}`);
    const envelope = {
      command: 'person.enrol',
      worker: 'a test',
      station: 'office',
      key: `after-${round}`,
    } as const;
    const given = give(book, { ...envelope, at: '2026-03-01T10:00:00Z', input: { name: 'Fay Gorse' } });
    expect(given).toMatchObject({ stopped: { kind: 'behind' } });
    stop();
  }
  const aside = tempFolder('aside');
  for (const beside of ['', '-wal', '-shm']) {
    if (existsSync(`${file}${beside}`)) renameSync(`${file}${beside}`, join(aside, `lantern.book${beside}`));
  }
  expect(await restoreBook(copy?.file ?? '', file, new Date())).toMatchObject({
    ok: true,
    equal: true,
    logHead: head,
  });
  start();
  expect(troubleNow()).toBeNull();
  stop();
}

describe('a book that lost its end', () => {
  it('is whole where nothing happened to its write-ahead log', async () => {
    const head = await enterFive();
    expect(logHead(start())).toEqual(head);
    expect(troubleNow()).toBeNull();
  });

  it.each(LOSSES)(
    'because its write-ahead log was %s is found at every start, until the backup is back',
    { timeout: 3_600_000 },
    async (_, lose) => {
      for (let trial = 0; trial < rounds(1); trial += 1) {
        if (trial > 0) ready();
        await isFoundAtEveryStart(lose);
      }
    },
  );

  it('is found where the file is an older one, also when it has entries of its own since', async () => {
    await enterFive();
    for (const beside of ['', '-wal']) rmSync(`${file}${beside}`);
    copyFileSync(WHOLE, file);
    const book = openBook(file);
    for (let entry = 0; entry < 9; entry += 1)
      accepted(giveTo(book, 'person.enrol', { input: { name: `Gil ${entry}` } }));
    book.close();
    await keepCopy(file, folder, new Date('2026-02-28T20:00:00Z'));
    start();
    expect(troubleNow()?.happened).toMatch(/lacks 5 entries .* The book has 9 entries of its own/);
    expect(troubleNow()?.toDo).toMatch(/Then enter by hand what only the other book has\./);
  });

  it('is offered the longest backup that is whole, and told of the longer one that is not', async () => {
    await enterFive();
    await enterFive('20');
    const [longer, shorter] = copiesIn(folder, file).map((copy) => copy.file);
    rmSync(wal());
    const bytes = readFileSync(longer ?? '');
    bytes[bytes.length >> 1] = (bytes[bytes.length >> 1] ?? 0) ^ 1;
    writeFileSync(longer ?? '', bytes);
    start();
    expect(troubleNow()?.happened).toContain(`lacks 5 entries that the backup ${shorter} has`);
    expect(troubleNow()?.happened).toContain(`Backups with more entries that are damaged: ${longer}.`);
    stop();
    truncateSync(shorter ?? '', 5000);
    start();
    expect(troubleNow()?.happened).toMatch(/no such backup is whole\. Backups with more entries that are damaged: /);
  });

  it('goes on when the person has moved the backup away', async () => {
    await enterFive();
    rmSync(wal());
    start();
    expect(troubleNow()?.kind).toBe('behind');
    stop();
    renameSync(folder, `${folder}-aside`);
    start();
    expect(troubleNow()).toBeNull();
  });
});

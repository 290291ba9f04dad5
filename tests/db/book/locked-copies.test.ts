import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { backupBook } from '#db/book/backup.ts';
import { chainIn, copiesAhead, copiesIn, lackingIn } from '#db/book/copies.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { leaveBackupsOpen, lockBackups, lockFile } from '#db/book/lock.ts';
import { whyNoBook } from '#db/book/missing.ts';
import { openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { commandLine } from '#db/cli/main.ts';
import { fullBook, MARKS, rowsOfFile, rowsRestored } from '#tests/support/book-file.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { cli } from '#tests/support/process.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const PASSPHRASE = 'three dry pelts hanging';
const on = (moment: string) => new Date(`${moment}Z`);
const restoredWith = (file: string, to: string, passphrase: string) =>
  restoreBook(file, to, new Date(), async () => passphrase);

async function lockedBook(): Promise<string> {
  const folder = tempFolder('laptop');
  const file = join(folder, 'lantern.book');
  writeFileSync(file, readFileSync(fullBook()));
  expect(await lockBackups(file, PASSPHRASE)).toMatchObject({ ok: true });
  return file;
}

/** Every file in a folder as one text of bytes. */
const bytesIn = (folder: string) =>
  Buffer.concat(readdirSync(folder).map((name) => readFileSync(join(folder, name)))).toString('latin1');

let book = '';
let drive = '';
let copy = '';
beforeAll(async () => {
  book = await lockedBook();
  drive = tempFolder('drive');
  expect(await keepCopy(book, drive, on('2026-02-28T14:05:09.123'))).toMatchObject({ ok: true, locked: true });
  copy = copiesIn(drive, book)[0]?.file ?? '';
});

describe('a backup on a drive, locked with a passphrase', () => {
  it('holds nothing that anybody could read, and leaves nothing open beside the book', () => {
    expect(readdirSync(drive).sort()).toEqual(
      ['', '.json', '.sha256'].map((end) => `lantern-20260228T140509123Z.book.locked${end}`),
    );
    expect(readFileSync(book).toString('latin1')).toContain(MARKS.note);
    for (const words of [MARKS.note, 'SQLite format', 'person', 'CREATE TABLE'])
      expect(bytesIn(drive)).not.toContain(words);
    expect(readdirSync(dirname(book)).filter((name) => name.includes('partial'))).toEqual([]);
    expect(statSync(lockFile(book)).mode & 0o777).toBe(0o600);
    expect(readFileSync(lockFile(book), 'utf8')).not.toContain(PASSPHRASE);
  });

  it('was read back from the drive, opened and replayed, and is listed with its head', () => {
    expect(copiesIn(drive, book)).toMatchObject([
      {
        at: '2026-02-28T14:05:09.123Z',
        about: { proof: { ok: true, words: expect.stringMatching(/make the same book/) } },
      },
    ]);
    const { sqlite, close } = openBook(book);
    expect(copiesAhead(copiesIn(drive, book), chainIn(sqlite))).toEqual([]);
    close();
  });

  it('is restored on another laptop with nothing but the file and the passphrase', async () => {
    const other = join(tempFolder('other'), 'fresh.book');
    expect(await restoredWith(copy, other, PASSPHRASE)).toMatchObject({ ok: true, equal: true, sha256Checked: true });
    expect(rowsRestored(other)).toEqual(rowsOfFile(book));
    // And that laptop goes on locking.
    expect(await keepCopy(other, drive, on('2026-03-01T10:00:00'))).toMatchObject({ ok: true, locked: true });
    for (const { file } of copiesIn(drive, other)) for (const end of ['', '.json', '.sha256']) rmSync(file + end);
  });

  it('says in a sentence that a passphrase is wrong, and makes no book', async () => {
    const other = join(tempFolder('other'), 'fresh.book');
    for (const wrong of ['three dry pelts hangin', 'Three dry pelts hanging', '']) {
      const { ok, ...said } = await restoredWith(copy, other, wrong);
      expect([ok, said]).toMatchObject([false, { code: 'not_allowed', message: expect.stringMatching(/try again\./) }]);
    }
    expect(readdirSync(dirname(other))).toEqual([]);
  });

  it('is refused as damaged with any one bit of it flipped, cut off anywhere, or with pieces changed about', async () => {
    const bytes = readFileSync(copy);
    const piece = 64 * 1024 + 16;
    expect(bytes.length).toBeGreaterThan(61 + 3 * piece);
    const swapped = Buffer.concat([
      bytes.subarray(0, 61),
      ...[bytes.subarray(61 + piece, 61 + 2 * piece), bytes.subarray(61, 61 + piece), bytes.subarray(61 + 2 * piece)],
    ]);
    const flipped = [3, 8, 60, 61, 5000, 61 + piece, bytes.length - 1].map((at) => {
      const other = Buffer.from(bytes);
      other.writeUInt8(other.readUInt8(at) ^ 4, at);
      return other;
    });
    const cut = [bytes.length - 1, 61 + piece, 61 + 2 * piece, 62, 61].map((at) => bytes.subarray(0, at));
    for (const [at, bad] of [...flipped, ...cut, swapped].entries()) {
      const file = tempFile(`bad-${at}.book.locked`);
      writeFileSync(file, bad);
      const other = join(tempFolder('other'), 'fresh.book');
      expect(await restoredWith(file, other, PASSPHRASE), `case ${at}`).toMatchObject({ ok: false });
      expect(readdirSync(dirname(other)), `case ${at}`).toEqual([]);
    }
  });

  it('whose header asks for more work than a key takes is refused before any of it is done', async () => {
    const bytes = readFileSync(copy);
    bytes[9] = 31;
    const file = tempFile('costly.book.locked');
    writeFileSync(file, bytes);
    expect(await restoredWith(file, tempFile('fresh.book'), PASSPHRASE)).toMatchObject({
      ok: false,
      code: 'malformed',
    });
  });

  it('is nothing that opens as a book, and the sentence says what it is', async () => {
    const { code, out } = await cli('verify', '--book', copy);
    expect([code, out]).toEqual([1, expect.stringContaining('is a locked backup. Restore it with its passphrase')]);
  });
});

describe('the rules of copies', () => {
  const enrol = (file: string, name: string) => {
    const open = openBook(file);
    accepted(giveTo(open, 'person.enrol', { input: { name }, key: `enrol ${name}` }));
    open.close();
  };

  it('thin locked ones out as others, and lock what lay open from before', async () => {
    const own = join(tempFolder('laptop'), 'lantern.book');
    const stick = tempFolder('stick');
    writeFileSync(own, readFileSync(fullBook()));
    for (const moment of ['2026-02-26T09:00:00', '2026-02-26T10:00:00']) await keepCopy(own, stick, on(moment));
    expect(readdirSync(stick).filter((name) => name.includes('locked'))).toEqual([]);
    await lockBackups(own, PASSPHRASE);
    expect(await keepCopy(own, stick, on('2026-02-28T08:00:00'))).toMatchObject({
      letGo: [expect.stringContaining('20260226T090000000Z')],
    });
    const names = copiesIn(stick, own).map(({ name }) => name);
    expect(names.map((name) => name.slice(8, 19))).toEqual(['20260228T08', '20260226T10']);
    expect(names.every((name) => name.endsWith('.locked'))).toBe(true);
    expect(bytesIn(stick)).not.toContain(MARKS.note);
    expect(copiesIn(stick, own)[1]?.about?.proof).toMatchObject({ ok: true });
    const other = join(tempFolder('other'), 'fresh.book');
    expect(await restoredWith(copiesIn(stick, own)[1]?.file ?? '', other, PASSPHRASE)).toMatchObject({ ok: true });
  });

  it('leave what lies beside the book open, and all of it once the office says so; old ones are still read', async () => {
    const own = await lockedBook();
    const [stick, beside] = [tempFolder('stick'), join(dirname(own), 'backup.book')];
    expect(await backupBook(own, beside)).not.toHaveProperty('locked');
    expect(await backupBook(own, join(stick, 'a.book'))).toHaveProperty('locked', true);
    await keepCopy(own, stick, on('2026-02-28T08:00:00'));
    leaveBackupsOpen(own);
    expect(await keepCopy(own, stick, on('2026-02-28T09:00:00'))).not.toHaveProperty('locked');
    expect(copiesIn(stick, own).map(({ name }) => name.endsWith('.locked'))).toEqual([false, true]);
  });

  it('make none on a drive while the file with the key is damaged, and say what to do', async () => {
    const own = await lockedBook();
    const stick = tempFolder('stick');
    writeFileSync(lockFile(own), '{"locks":');
    expect(await cli('keep', stick, '--book', own)).toMatchObject({
      code: 1,
      err: expect.stringMatching(/is damaged.*Set the passphrase again/),
    });
    expect(await backupBook(own, join(stick, 'a.book'))).toMatchObject({ ok: false });
    expect(readdirSync(stick)).toEqual([]);
    await lockBackups(own, PASSPHRASE);
    expect(await cli('keep', stick, '--book', own)).toMatchObject({ code: 0 });
  });

  it('tell what a book lacks that a locked copy has, also one under an earlier passphrase or of another laptop', async () => {
    const own = await lockedBook();
    const stick = tempFolder('stick');
    const before = readFileSync(own);
    enrol(own, 'Wren Halloway');
    enrol(own, 'Odo Marsh');
    await keepCopy(own, stick, on('2026-02-28T09:00:00'));
    for (const beside of ['-wal', '-shm']) rmSync(own + beside, { force: true });
    writeFileSync(own, before);
    const told = () => {
      const { sqlite, close } = openBook(own);
      const chain = chainIn(sqlite);
      const said = [lackingIn(copiesIn(stick, own), chain)?.whole, copiesAhead(copiesIn(stick, own), chain)];
      close();
      return said;
    };
    const name = expect.stringMatching(/T09.*\.locked$/);
    expect(told()).toMatchObject([{ more: 2, fewer: 0 }, [{ name, more: 2, fewer: 0 }]]);
    await lockBackups(own, 'another four words here');
    expect(told()).toMatchObject([{ more: 2, fewer: 0 }, [{ name, more: 2, fewer: 0 }]]);
    rmSync(lockFile(own));
    expect(told()).toMatchObject([{ more: 2, fewer: 0 }, [{ name, more: null }]]);
    rmSync(own);
    expect(whyNoBook(own, { configured: true, folders: [stick] })).toMatch(/restore .*\.book\.locked/);
  });
});

describe('the command line', () => {
  const typed = async (words: readonly string[], ...answers: string[]) => {
    const said: string[] = [];
    const voice = { say: (line: string) => said.push(line), warn: (line: string) => said.push(line) };
    const ask = async () => answers.shift() ?? '';
    return { code: await commandLine(words, { ...voice, ask }), said: said.join('\n') };
  };

  it('locks by a passphrase typed twice, warns what losing it means, and restores by it', async () => {
    const own = join(tempFolder('laptop'), 'lantern.book');
    writeFileSync(own, readFileSync(fullBook()));
    const set = (...twice: string[]) => typed(['lock-backups', '--book', own], ...twice);
    expect(await set(PASSPHRASE, 'three dry pelts')).toMatchObject({
      code: 1,
      said: expect.stringMatching(/two different/),
    });
    expect(await set('short', 'short')).toMatchObject({ code: 1, said: expect.stringMatching(/at least 10/) });
    expect(existsSync(lockFile(own))).toBe(false);
    expect(await set(PASSPHRASE, PASSPHRASE)).toMatchObject({
      code: 0,
      said: expect.stringMatching(/without it nobody can open/),
    });
    const stick = tempFolder('stick');
    expect(await typed(['keep', stick, '--book', own])).toMatchObject({ code: 0, said: /\.locked, locked: SHA-256/ });
    const [made] = copiesIn(stick, own);
    const to = join(tempFolder('other'), 'lantern.book');
    const restore = (passphrase: string) => typed(['restore', made?.file ?? '', '--book', to], passphrase);
    expect(await restore('a wrong one here')).toMatchObject({ code: 1, said: expect.stringMatching(/does not open/) });
    expect(await restore(PASSPHRASE)).toMatchObject({
      code: 0,
      said: expect.stringMatching(/locked with the same passphrase/),
    });
    expect(await typed(['leave-backups-open', '--book', to])).toMatchObject({
      code: 0,
      said: expect.stringMatching(/can read them/),
    });
  });
});

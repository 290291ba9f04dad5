import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backupBook } from '#db/book/backup.ts';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { fullBook, MARKS, rowsOfFile, rowsRestored, withBitFlipped, withSql } from '#tests/support/book-file.ts';
import { giveTo } from '#tests/support/hall.ts';
import { whileLocked } from '#tests/support/rights.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const WHOLE = fullBook();

async function backup(from = WHOLE): Promise<string> {
  const target = tempFile('backup.book');
  expect(await backupBook(from, target)).toMatchObject({ ok: true });
  return target;
}

const beside = (file: string) => readdirSync(dirname(file)).sort();

describe('a backup', () => {
  it('is one file with its sum beside it, and says what it is', async () => {
    const target = tempFile('backup.book');
    const report = await backupBook(WHOLE, target);
    const bytes = readFileSync(target);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const logHeadOf = verifyBook(WHOLE).chain.head;
    expect(report).toEqual({ ok: true, file: target, sha256, bytes: bytes.length, logHead: logHeadOf });
    expect(beside(target)).toEqual(['backup.book', 'backup.book.sha256']);
    expect(rowsOfFile(target)).toEqual(rowsOfFile(WHOLE));
  });

  // The form that GNU coreutils' sha256sum writes and checks.
  it('has a sum that sha256sum finds good', async () => {
    const target = await backup();
    const run = () => spawnSync('sha256sum', ['--check', `${basename(target)}.sha256`], { cwd: dirname(target) });
    expect(run().status).toBe(0);
    writeFileSync(target, 'x', { flag: 'a' });
    expect(run().status).not.toBe(0);
  });

  // sqlite.org/fileformat.html, 1.3.3: bytes 18 and 19 are 1 for a file without a write-ahead log, 2 for one with.
  it('needs no write-ahead log', async () => {
    const bytes = readFileSync(await backup());
    expect([bytes[18], bytes[19]]).toEqual([1, 1]);
  });

  it('is made while the book is open, with all that was answered before it', async () => {
    const file = fullBook();
    const book = openBook(file);
    giveTo(book, 'person.enrol', { input: { name: 'Late Comer' } });
    const head = logHead(book);
    const target = tempFile('backup.book');
    const making = backupBook(file, target);
    giveTo(book, 'person.enrol', { input: { name: 'Later Still' } });
    const report = await making;
    expect(report.ok && report.logHead.seq).toBeGreaterThanOrEqual(head.seq);
    expect(verifyBook(target)).toMatchObject({ ok: true, chain: { head: report.ok ? report.logHead : {} } });
    expect(logHead(book).seq).toBe(head.seq + 1);
    book.close();
  });

  it('overwrites nothing', async () => {
    const target = await backup();
    const before = readFileSync(target);
    expect(await backupBook(WHOLE, target)).toMatchObject({ ok: false, code: 'taken' });
    expect(await backupBook(WHOLE, WHOLE)).toMatchObject({ ok: false, code: 'taken' });
    expect(readFileSync(target).equals(before)).toBe(true);
    expect(beside(target)).toEqual(['backup.book', 'backup.book.sha256']);
  });

  it('is refused where there is no book or no folder, and leaves nothing behind', async () => {
    const folder = tempFolder();
    const target = join(folder, 'backup.book');
    expect(await backupBook(join(folder, 'none.book'), target)).toMatchObject({ ok: false, code: 'unknown' });
    expect(await backupBook(WHOLE, join(folder, 'none', 'backup.book'))).toMatchObject({ ok: false, code: 'unknown' });
    writeFileSync(join(folder, 'letter.txt'), 'Dear members, '.repeat(400));
    expect(await backupBook(join(folder, 'letter.txt'), target)).toMatchObject({ ok: false, code: 'unknown' });
    expect(readdirSync(folder)).toEqual(['letter.txt']);
  });

  it('is refused where nothing can be written', async () => {
    const folder = tempFolder();
    for (const make of [backupBook, restoreBook]) {
      const target = join(folder, 'new.book');
      expect(await whileLocked(target, () => make(WHOLE, target, new Date()))).toMatchObject({
        ok: false,
        code: 'not_allowed',
      });
    }
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is refused of a book that is damaged, which would only be kept for good', async () => {
    const target = tempFile('backup.book');
    const damaged = withSql(WHOLE, `UPDATE log SET worker = 'Bea' WHERE seq = 4`);
    const report = await backupBook(damaged, target);
    expect(report).toMatchObject({ ok: false, code: 'malformed' });
    expect(report.ok ? '' : report.message).toMatch(/^No backup was made.*line 4 .*Verify the book\.$/);
    expect(beside(target)).toEqual([]);
  });
});

describe('a restored book', () => {
  it('is the book again, ready to be worked with', async () => {
    const from = await backup();
    const target = tempFile();
    const report = await restoreBook(from, target, new Date());
    expect(report).toMatchObject({ ok: true, file: target, from, sha256Checked: true, equal: true });
    expect(report.ok && report.logHead).toEqual(verifyBook(WHOLE).chain.head);
    expect(rowsRestored(target)).toEqual(rowsOfFile(WHOLE));
    expect(beside(target)).toEqual(['sale.book']);
    const book = openBook(target);
    expect(giveTo(book, 'person.enrol', { input: { name: 'Next Year' } })).toMatchObject({ ok: true });
    book.close();
    expect(verifyBook(target).ok).toBe(true);
  });

  it('comes from a backup without its sum too, and says so', async () => {
    const from = await backup();
    rmSync(`${from}.sha256`);
    expect(await restoreBook(from, tempFile(), new Date())).toMatchObject({ ok: true, sha256Checked: false });
  });

  it('overwrites nothing, nor is it mixed with what is left of another', async () => {
    const from = await backup();
    const target = fullBook();
    const before = readFileSync(target);
    expect(await restoreBook(from, target, new Date())).toMatchObject({ ok: false, code: 'taken' });
    expect(readFileSync(target).equals(before)).toBe(true);
    renameSync(target, `${target}-wal`);
    expect(await restoreBook(from, target, new Date())).toMatchObject({ ok: false, code: 'taken' });
    expect(existsSync(target)).toBe(false);
  });

  it('does not come from half of a book that is in use', async () => {
    const file = fullBook();
    const book = openBook(file);
    giveTo(book, 'person.enrol', { input: { name: 'Late Comer' } });
    expect(await restoreBook(file, tempFile(), new Date())).toMatchObject({ ok: false, code: 'conflict' });
    book.close();
  });
});

describe('a damaged backup', () => {
  const refusal = async (file: string) => {
    const target = tempFile();
    const report = await restoreBook(file, target, new Date());
    expect(beside(target)).toEqual([]);
    if (report.ok) throw new Error('it was restored');
    expect(report.message).not.toContain('.partial');
    return report.message;
  };

  it('is refused by its sum, wherever the byte is', async () => {
    const from = await backup();
    const bytes = readFileSync(from);
    for (const place of [0, 30, 4096, bytes.length >> 1, bytes.length - 1]) {
      const changed = Buffer.from(bytes);
      changed[place] = (changed[place] ?? 0) ^ 1;
      writeFileSync(from, changed);
      expect(await refusal(from)).toMatch(/its SHA-256 is not the one beside it\. Use another backup\.$/);
    }
  });

  it('is refused where its sum is no sum', async () => {
    const from = await backup();
    writeFileSync(`${from}.sha256`, 'never mind\n');
    expect(await refusal(from)).toMatch(/holds no SHA-256/);
  });

  it('is refused without a sum, by its chain, its rows or its pages', async () => {
    const from = await backup();
    const bytes = readFileSync(from);
    const note = withBitFlipped(from, bytes.indexOf(MARKS.note));
    expect(await refusal(note)).toMatch(/cannot be restored\. .*lot.*Use another backup\.$/s);
    const torn = tempFile();
    writeFileSync(torn, bytes.subarray(0, bytes.length >> 1));
    expect(await refusal(torn)).toMatch(/cannot be restored\. .*Use another backup\.$/s);
    writeFileSync(torn, 'Dear members, '.repeat(400));
    expect(await refusal(torn)).toMatch(/some other file/);
    expect(await refusal(join(dirname(torn), 'none.book'))).toMatch(/There is no book at/);
  });
});

import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copiesIn } from '#db/copies.ts';
import { keepCopy } from '#db/keep-copy.ts';
import { restoreBook } from '#db/restore.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { fullBook } from '#tests/support/full-book.ts';
import { openHall } from '#tests/support/hall.ts';
import { olderBook } from '#tests/support/older-book.ts';
import { rowsOfFile } from '#tests/support/read-file.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const BOOK = fullBook();
const on = (moment: string) => new Date(`${moment}Z`);

describe('a dated copy', () => {
  it('has its sum and its head beside it, and restores on an empty folder to the same book', async () => {
    const folder = tempFolder('stick');
    const kept = await keepCopy(BOOK, folder, on('2026-02-28T14:05:09.123'));
    const [name] = readdirSync(folder).filter((one) => one.endsWith('.book'));
    expect(name).toMatch(/-20260228T140509123Z\.book$/);
    expect(readdirSync(folder).sort()).toEqual([name, `${name}.json`, `${name}.sha256`]);
    const [copy] = copiesIn(folder, BOOK);
    expect(copy).toMatchObject({ at: '2026-02-28T14:05:09.123Z', about: { logHead: verifyBook(BOOK).chain.head } });
    expect(kept).toMatchObject({ ok: true, letGo: [], sha256: copy?.about?.sha256 });
    const fresh = tempFile('fresh.book');
    expect(await restoreBook(join(folder, name ?? ''), fresh)).toMatchObject({ ok: true, equal: true });
    expect(rowsOfFile(fresh)).toEqual(rowsOfFile(BOOK));
  });

  it('lets older ones of the same book go by the rule, with what stands beside them, and nothing else', async () => {
    const folder = tempFolder('stick');
    for (const moment of ['2026-02-26T09:00:00', '2026-02-26T10:00:00']) await keepCopy(BOOK, folder, on(moment));
    const letGo = [expect.stringContaining('20260226T090000000Z')];
    expect(await keepCopy(BOOK, folder, on('2026-02-27T09:00:00'))).toMatchObject({ ok: true, letGo });
    expect(await keepCopy(BOOK, folder, on('2026-02-28T08:00:00'))).toMatchObject({ ok: true, letGo: [] });
    expect(readdirSync(folder).filter((name) => name.includes('20260226T09'))).toEqual([]);
    expect(copiesIn(folder, BOOK).map(({ at }) => at.slice(0, 13))).toEqual([
      ...['2026-02-28T08', '2026-02-27T09', '2026-02-26T10'],
    ]);
  });

  it('keeps all of an evening by the day of the hall', async () => {
    const inDenver = tempFile('denver.book');
    const hall = openHall({ file: inDenver });
    hall.must('association.set', { name: 'Lantern Ridge', timeZone: 'America/Denver' });
    hall.book.close();
    const folder = tempFolder('stick');
    for (const time of ['2026-11-29T21:00:00', '2026-11-29T23:55:00']) await keepCopy(inDenver, folder, on(time));
    expect(await keepCopy(inDenver, folder, on('2026-11-30T03:05:00'))).toMatchObject({ ok: true, letGo: [] });
  });

  it('is made of a book of an older version too, which keeps no time zone', async () => {
    expect(await keepCopy(olderBook(), tempFolder('stick'), new Date())).toMatchObject({ ok: true, letGo: [] });
  });

  it('is refused where the stick is not in, and no folder is made in its place', async () => {
    const folder = join(tempFolder(), 'stick');
    expect(await keepCopy(BOOK, folder, new Date())).toMatchObject({ ok: false, code: 'unknown' });
    expect(existsSync(folder)).toBe(false);
  });

  it('is listed also where the words beside it are lost', async () => {
    const folder = tempFolder('stick');
    await keepCopy(BOOK, folder, on('2026-02-28T14:05:09.123'));
    const [copy] = copiesIn(folder, BOOK);
    expect(readFileSync(`${copy?.file}.json`, 'utf8')).toContain('"seq"');
    rmSync(`${copy?.file}.json`);
    expect(copiesIn(folder, BOOK)).toMatchObject([{ name: copy?.name, about: null }]);
  });
});

import { copyFileSync, existsSync, readdirSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copiesIn } from '#db/book/copies.ts';
import { type Envelope, submitUntyped } from '#db/book/door.ts';
import { checksumBeside, sha256Of } from '#db/book/files.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { lineWithKey, logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { epochOf } from '#db/follow/epoch.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { chance, rounds } from '#tests/faults/support/chance.ts';
import { after, bundle, start } from '#tests/faults/support/child.ts';
import type { Orders } from '#tests/faults/support/seldom.ts';
import { openHall } from '#tests/support/hall.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const FIRST = Date.parse('2026-02-28T10:00:00Z');

/** Starts what is to be killed `times` times, each at another moment; gives what it said before. */
async function killed(
  times: number,
  what: { readonly orders: (round: number) => Orders; readonly within: number },
  inspect: (told: readonly string[], round: number) => Promise<void> | void,
): Promise<void> {
  const { below } = chance('kills in seldom acts');
  const script = await bundle('tests/faults/support/seldom.ts');
  for (let round = 1; round <= times; round += 1) {
    const child = start(script);
    await child.ready;
    child.begin(what.orders(round));
    await Promise.race([child.lines, after(below(what.within))]);
    child.kill();
    await inspect(await child.lines, round);
  }
}

describe('a backup that is killed', () => {
  it('leaves no copy that is not whole, and the next one takes away what it left', { timeout: 3_600_000 }, async () => {
    const [file, folder] = [tempFile('lantern.book'), tempFolder()];
    openHall({ file, stage: 'settling' }).book.close();
    const orders = (round: number): Orders => ({ copy: { file, folder, at: FIRST + round * 86_400_000 } });
    await killed(rounds(6), { orders, within: 400 }, async (told) => {
      const copies = copiesIn(folder, file);
      for (const copy of copies) {
        expect(checksumBeside(copy.file)).toEqual({ ok: true, value: await sha256Of(copy.file) });
        expect(verifyBook(copy.file)).toMatchObject({ ok: true, problems: [] });
      }
      // The rule lets older ones go; the newest that was told of stays.
      const newest = told.at(-1);
      if (newest) expect(copies.map((copy) => copy.file)).toContain(newest);
    });
    const drafts = () => readdirSync(folder).filter((name) => name.includes('.partial'));
    for (const name of drafts()) utimesSync(join(folder, name), new Date(FIRST), new Date(FIRST));
    expect(await keepCopy(file, folder, new Date(FIRST + 900 * 86_400_000))).toMatchObject({ ok: true });
    expect(drafts()).toEqual([]);
    expect(verifyBook(file)).toMatchObject({ ok: true, problems: [] });
  });
});

describe('a restore that is killed', () => {
  it('leaves no book or the whole one, of its own epoch, and can be begun again', { timeout: 3_600_000 }, async () => {
    const [file, folder] = [tempFile('lantern.book'), tempFolder()];
    openHall({ file, stage: 'settling' }).book.close();
    const kept = await keepCopy(file, folder, new Date(FIRST));
    if (!kept.ok) throw new Error(kept.message);
    const targets = Array.from({ length: rounds(6) }, () => join(tempFolder(), 'restored.book'));
    const target = (round: number) => targets[round - 1] ?? expect.fail('a round too many');
    const orders = (round: number): Orders => ({ restore: { backup: kept.file, target: target(round) } });
    let whole = 0;
    await killed(targets.length, { orders, within: 250 }, async (told, round) => {
      const there = existsSync(target(round));
      if (told.length > 0) expect([told, there]).toEqual([['restored'], true]);
      if (there) whole += 1;
      else expect(await restoreBook(kept.file, target(round), new Date())).toMatchObject({ ok: true });
      expect(verifyBook(target(round))).toMatchObject({ ok: true, problems: [] });
      const book = openBook(target(round));
      expect([logHead(book).seq, epochOf(book)]).toEqual([kept.logHead.seq + 1, 2]);
      book.close();
    });
    console.log(`${targets.length} kills in a restore: ${whole} whole`);
  });
});

describe('sheets and a closing that are killed', () => {
  it('are in the book once where they were answered, whole, and go on from there', { timeout: 3_600_000 }, async () => {
    const base = tempFile('lantern.book');
    const hall = openHall({ file: base, stage: 'settling' });
    const { saleId } = hall;
    hall.book.close();
    const act = (command: string, station: Envelope['station'], input: unknown): Envelope => {
      return { command, station, input, worker: 'Ada', at: '2026-02-28T20:00:00Z', key: `seldom-${command}` };
    };
    const owed = { saleId, direction: 'in', sellerNo: 1, method: 'cash', amount: '5.00' };
    const envelopes = [
      act('settlement.issue', 'payout', { saleId, sellerNo: null, seen: 1 }),
      act('payment.record', 'payout', owed),
      act('sale.stage', 'office', { saleId, stage: 'closed', reason: '' }),
    ];
    const files = Array.from({ length: rounds(10) }, () => {
      const file = tempFile('lantern.book');
      copyFileSync(base, file);
      return file;
    });
    const file = (round: number) => files[round - 1] ?? expect.fail('a round too many');
    const done: number[] = [];
    await killed(
      files.length,
      { orders: (round) => ({ acts: { file: file(round), envelopes } }), within: 250 },
      (told, round) => {
        const book = openBook(file(round));
        const inBook = envelopes
          .filter(({ key }) => lineWithKey(book, key) !== undefined)
          .map(({ key }) => `${key} true`);
        book.close();
        expect(inBook.slice(0, told.length)).toEqual(told);
        expect(inBook.length - told.length).toBeLessThanOrEqual(1);
        done.push(inBook.length);
        expect(verifyBook(file(round))).toMatchObject({ ok: true, problems: [] });
      },
    );
    // Whoever sends all of it again, as the outbox does, ends where nobody was killed.
    const again = openBook(file(1));
    for (const envelope of envelopes) expect(submitUntyped(again, envelope)).toMatchObject({ ok: true });
    again.close();
    expect(verifyBook(file(1))).toMatchObject({ ok: true, problems: [] });
    console.log(`${files.length} kills between sheets and the closing: ${done.join(' ')} of 3 acts`);
  });
});

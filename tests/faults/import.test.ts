import { copyFileSync, rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { checkChain } from '#db/verify/chain.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { biggerFolder } from '#tests/faults/support/bigger-folder.ts';
import { chance, rounds } from '#tests/faults/support/chance.ts';
import { after, bundle, start } from '#tests/faults/support/child.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const TIMES = 30;

describe('a process that is killed while it imports a sale', () => {
  it('leaves the whole sale or nothing of it', { timeout: 3_600_000 }, async () => {
    const { below } = chance('kills in an import');
    const { folder, lots } = biggerFolder(TIMES);
    const base = tempFile();
    const hall = openHall({ file: base });
    const before = rowsOf(hall.book);
    const { seq } = logHead(hall.book);
    hall.book.close();
    const script = await bundle('tests/faults/support/importer.ts');
    const copied = () => {
      const file = tempFile();
      copyFileSync(base, file);
      return file;
    };

    /** What is in the book after a kill: everything or nothing, and everything where the import was answered. */
    function inspect(file: string, answered: boolean): boolean {
      const book = openBook(file);
      expect(book.sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
      expect(checkChain(book.sqlite)).toMatchObject({ ok: true });
      const whole = logHead(book).seq === seq + 1;
      if (whole) expect(book.sqlite.prepare('SELECT count(*) FROM lot').pluck().get()).toBe(lots);
      else expect(rowsOf(book)).toEqual(before);
      if (answered) expect(whole).toBe(true);
      book.close();
      return whole;
    }

    // One import that nobody kills shows how long it takes, and so between which moments a kill can hit it.
    const undisturbed = copied();
    const calm = start(script);
    await calm.ready;
    const from = performance.now();
    calm.begin({ file: undisturbed, folder });
    expect(await calm.lines).toEqual([`imported ${seq + 1}`]);
    const takes = performance.now() - from;
    expect(inspect(undisturbed, true)).toBe(true);
    expect(verifyBook(undisturbed)).toMatchObject({ ok: true });

    const all = rounds(8);
    let wholes = 0;
    let child = start(script);
    for (let round = 1; round <= all; round += 1) {
      await child.ready;
      const following = start(script);
      const file = copied();
      child.begin({ file, folder });
      await after(below(Math.ceil(takes * 1.2)));
      child.kill();
      if (inspect(file, (await child.lines).length > 0)) wholes += 1;
      rmSync(file);
      child = following;
    }
    child.kill();
    await child.lines;
    console.log(
      `${all} kills in an import of ${lots} lots (${Math.round(takes)} ms): ${wholes} whole, ${all - wholes} nothing`,
    );
  });
});

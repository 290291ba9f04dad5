import { once } from 'node:events';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { checkChain } from '#db/verify/chain.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';
import { endOf, startScript } from '#tests/support/process.ts';
import { tempFile } from '#tests/support/temp.ts';

const TABLES = 4;
const LOTS = 250;

describe('several check-in tables at once', () => {
  it('four processes with 250 lots each give the numbers 1 to 1000, none left out and none twice', async () => {
    const file = tempFile();
    openHall({ file }).book.close();
    const tables = Array.from({ length: TABLES }, (_, at) =>
      startScript('tests/support/racer.ts', [file, String(at + 1), String(LOTS), 'intake']),
    );
    const ends = tables.map(endOf);
    await Promise.all(tables.map((table) => table.stdout && once(table.stdout, 'data')));
    for (const table of tables) table.stdin?.write('go\n');
    const ended = await Promise.all(ends);

    expect(ended.map(({ code }) => code)).toEqual(Array(TABLES).fill(0));
    const all = Array.from({ length: TABLES * LOTS }, (_, at) => at + 1);
    const told = ended.flatMap(({ output }) => output.trim().split('\n').slice(1));
    expect(told.map((lotNo) => Number.parseInt(lotNo, 10)).sort((a, b) => a - b)).toEqual(all);
    const book = openBook(file);
    const rows = rowsOf(book).lot as { lot_number: number; note: string }[];
    expect(rows.map(({ lot_number }) => lot_number)).toEqual(all);
    expect(new Set(rows.map(({ note }) => note)).size).toBe(TABLES);
    expect(checkChain(book.sqlite).ok).toBe(true);
    book.close();
  });
});

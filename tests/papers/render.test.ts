import { describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { checked, readBack } from '#tests/papers/support/pdf.ts';
import { sheetsOfCase } from '#tests/papers/support/sheets.ts';

/** So many sheets, each of its own seller number. */
function sheets(count: number): SettlementSheet[] {
  const known = [...sheetsOfCase('by-hand'), ...sheetsOfCase('sixty-lots')];
  return Array.from({ length: count }, (_, at) => known[at % known.length])
    .filter((sheet) => sheet !== undefined)
    .map((sheet, at) => ({ ...sheet, sellerNo: 500 + at }));
}

describe('many sheets in one file', () => {
  it('are all there, in order, each counting its own pages, and the progress goes up to the end', async () => {
    const all = sheets(20);
    const told: number[] = [];
    const onProgress = (done: number, of: number) => told.push(done, of);
    const back = readBack(await renderSheets(all, { size: 'letter', onProgress }));
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    const feet = back.pages.map((page) => /seller (\d+) .*Page (\d+) of (\d+)/.exec(page)?.slice(1).map(Number) ?? []);
    expect(feet.filter(([, page]) => page === 1).map(([seller]) => seller)).toEqual(
      all.map(({ sellerNo }) => sellerNo),
    );
    for (const [at, [seller, page = 0, of]] of feet.entries()) {
      const next = feet[at + 1];
      if (page === of) expect(next?.[1] ?? 1).toBe(1);
      else expect(next).toEqual([seller, page + 1, of]);
    }
    const done = told.filter((_, at) => at % 2 === 0);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(done.at(-1)).toBe(20);
    expect(done.length).toBeGreaterThan(2);
    expect(new Set(told.filter((_, at) => at % 2 === 1))).toEqual(new Set([20]));
  });

  it('asked for at the same time, come back to whoever asked', async () => {
    const asked = sheets(5);
    const files = await Promise.all(asked.map((sheet) => renderSheets([sheet], { size: 'a4' })));
    for (const [at, file] of files.entries()) {
      expect(readBack(file).text).toContain(`seller ${asked[at]?.sellerNo} `);
    }
  });

  it('of the same models are the same bytes', async () => {
    const [first, again] = [
      await renderSheets(sheets(3), { size: 'a4' }),
      await renderSheets(sheets(3), { size: 'a4' }),
    ];
    expect(Buffer.from(first).equals(Buffer.from(again))).toBe(true);
  });
});

describe('what cannot be drawn', () => {
  const broken = (sheet: SettlementSheet) => ({ ...sheet, partners: null }) as unknown as SettlementSheet;

  it('fails the whole, names the seller number, and leaves the next work alone', async () => {
    const [one, two] = sheets(2);
    if (!one || !two) throw new Error('two sheets are needed');
    await expect(renderSheets([one, broken(two)], { size: 'letter' })).rejects.toThrow(
      /seller number 500, .*seller number 501/,
    );
    expect(readBack(await renderSheets([two], { size: 'letter' })).text).toContain('seller 501');
  });

  it('cannot even be handed to the worker: fails as well', async () => {
    const unsendable = { ...sheets(1)[0], title: () => 'no text' } as unknown as SettlementSheet;
    await expect(renderSheets([unsendable], { size: 'letter' })).rejects.toThrow(/could not be cloned/);
    await expect(renderSheets(sheets(1), { size: 'letter' })).resolves.toBeInstanceOf(Uint8Array);
  });

  it('is refused where there is nothing to draw', async () => {
    await expect(renderSheets([], { size: 'letter' })).rejects.toThrow(RangeError);
  });
});

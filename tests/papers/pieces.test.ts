import { expect, it } from 'vitest';
import { renderPieces } from '#app/papers/draw.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { readBack } from '#tests/papers/support/pdf.ts';
import { person, STAMP, sellerFile } from '#tests/papers/support/sheets.ts';

const sheetOf = (name: string) => settlementSheet(sellerFile({ people: [person('P1', { name })] }), STAMP);

// Drawn in this process and not by a worker, so that no other test has used the typeface before.
it('a letter that an earlier piece had only as a part of another is not lost', async () => {
  const names = [
    ...Array.from({ length: 8 }, () => 'Łucja Żak'),
    'Zuzanna Zoëllner',
    'Çağla',
    'Cecilia',
    'Ångström',
    'Astrid',
  ];
  const bytes = await renderPieces(names.map(sheetOf), 'a4', () => {});
  const { pages } = readBack(bytes);
  expect(pages.map((page, at) => page.normalize('NFC').includes(names[at] ?? '?'))).toEqual(names.map(() => true));
});

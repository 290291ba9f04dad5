import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { folderTexts, zipFolder } from '#db/exchange/export-sale.ts';
import { caseFolder, filesIn, importFiles, withBook } from '#tests/support/exchange.ts';

describe('an exchange folder in one file', () => {
  it('holds every file to the byte, comes in as the same sale, and is the same each time it is made', () => {
    withBook((book) => {
      const { saleId } = importFiles(book, filesIn(caseFolder('by-hand')));
      const texts = folderTexts(book, saleId);
      const zip = zipFolder(texts, '2026-03-01');
      expect(zipFolder(texts, '2026-03-01')).toEqual(zip);
      const files = Object.fromEntries(Object.entries(unzipSync(zip)).map(([name, bytes]) => [name, strFromU8(bytes)]));
      expect(files).toEqual(Object.fromEntries(texts));
      // PKWARE APPNOTE 4.3.7 and 4.4.6, from memory: a local header begins with PK 3 4; bytes 12 and 13 are the day.
      expect([...zip.subarray(0, 4)]).toEqual([0x50, 0x4b, 3, 4]);
      expect((zip[12] ?? 0) + (zip[13] ?? 0) * 256).toBe(((2026 - 1980) << 9) | (3 << 5) | 1);
    });
  });
});

/** Makes the texts of an exchange folder from a sale of the book, and writes them. */
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Book } from '../open.ts';
import { saleFacts } from '../queries/sale-facts.ts';
import { saleText } from '../sale-input.ts';
import { bookRows } from './book-rows.ts';
import { tableText } from './csv-text.ts';
import { outTexts } from './out-texts.ts';
import { SALE_FILE, TABLE_NAMES, TABLES, tableOf } from './tables.ts';

/** Every file of the folder by its name. */
export function folderTexts(book: Book, saleId: number): Map<string, string> {
  const facts = saleFacts(book, saleId);
  const rows = bookRows(book, saleId, facts);
  const sources = {
    tags: rows.tags.map(({ lot_no: lotNo, tag }) => ({ lotNo, tag })),
    people: rows.people.map(({ person_id: personId, licence_no: licenceNo }) => ({ personId, licenceNo })),
  };
  return new Map([
    [SALE_FILE, saleText(facts.sale)],
    ...TABLE_NAMES.map((name) => [TABLES[name].file, tableText(tableOf(name), rows[name])] as const),
    ...Object.entries(outTexts(facts, sources)),
  ]);
}

/** Writes all files beside their places first, so that a full disk leaves the files of before as they were. */
export function writeFolder(folder: string, texts: ReadonlyMap<string, string>): void {
  mkdirSync(folder, { recursive: true });
  const files = [...texts].map(([file, text]) => ({
    ...{ path: join(folder, file), draft: join(folder, `.${file}.partial`), text },
  }));
  try {
    for (const { draft, text } of files) writeFileSync(draft, text);
    for (const { draft, path } of files) renameSync(draft, path);
  } finally {
    for (const { draft } of files) rmSync(draft, { force: true });
  }
}

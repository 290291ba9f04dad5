/** Reads the files of an exchange folder as text: the first of the layers an import goes through. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { OUT_FILES } from './out-texts.ts';
import { type Problem, problemList } from './problem.ts';
import type { RawFolder, RawTable } from './raw.ts';
import { readSaleFile } from './read-sale-file.ts';
import { readTable } from './read-table.ts';
import { SALE_FILE, TABLE_NAMES, TABLES, type TableName, tableOf } from './tables.ts';

export interface FolderRead {
  readonly raw: RawFolder;
  readonly problems: readonly Problem[];
  /** Files of the folder that look as if they were meant, but are not part of the exchange. */
  readonly ignored: readonly string[];
}

export class NotAFolder extends Error {}

/** @throws NotAFolder where there is no folder at the path. */
export function readFolder(folder: string): FolderRead {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new NotAFolder(`There is no folder ${folder}: check the path.`);
  }
  const { problems, report } = problemList();
  const bytesOf = (file: string) => (existsSync(join(folder, file)) ? readFileSync(join(folder, file)) : null);
  const sale = readSaleFile(bytesOf(SALE_FILE), report);
  const tables = Object.fromEntries(
    TABLE_NAMES.map((name) => [name, readTable(tableOf(name), bytesOf(TABLES[name].file), report)]),
  ) as Record<TableName, RawTable>;
  return { raw: { ...sale, tables }, problems, ignored: ignoredIn(folder) };
}

function ignoredIn(folder: string): string[] {
  const known = new Set<string>([SALE_FILE, ...TABLE_NAMES.map((name) => TABLES[name].file), ...OUT_FILES]);
  return readdirSync(folder).filter((file) => /\.(csv|json)$/i.test(file) && !known.has(file));
}

/** Exchange folders on the disk, as tests make and read them. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import type { FolderRow } from '#tests/support/folder-text.ts';
import { tempFolder } from '#tests/support/temp.ts';

/** A new folder with these files. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = tempFolder('folder');
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

export function filesIn(folder: string): Record<string, string> {
  const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(files.map(({ name }) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** The rows of a CSV text by column. */
export function rowsIn(text: string): FolderRow[] {
  return parse(text, { columns: true, bom: true }) as FolderRow[];
}

/** The header and rows of a CSV text as cells. */
export function cellsIn(text: string): string[][] {
  return parse(text, { bom: true }) as string[][];
}

/** The folder of a worked sale. */
export function caseFolder(name: string): string {
  return fileURLToPath(new URL(`../cases/${name}`, import.meta.url));
}

/** The files of a worked sale with changes of the text of some. Throws where a change changes nothing. */
export function changed(name: string, changes: readonly (readonly [file: string, from: string, to: string])[]) {
  const files = filesIn(caseFolder(name));
  for (const [file, from, to] of changes) {
    const before = files[file] ?? '';
    const after = before.replace(from, () => to);
    if (after === before) throw new Error(`${file} does not hold ${from}`);
    files[file] = after;
  }
  return files;
}

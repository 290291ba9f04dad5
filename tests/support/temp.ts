import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const made: string[] = [];

/** Removes what was asked for so far. Every file of tests does so at its end: see after-each-file.ts. */
export function removeTempFolders(): void {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
}

/** An empty folder of its own, gone when the test file that asked for it is done. Returns its absolute path. */
export function tempFolder(name = 'peltry'): string {
  const folder = mkdtempSync(join(tmpdir(), `${name}-`));
  made.push(folder);
  return folder;
}

/** The path of a file that does not exist yet, in an empty folder of its own. */
export function tempFile(name = 'sale.book'): string {
  return join(tempFolder(), name);
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

const made: string[] = [];

// Registered when a test file imports this module, so it runs once that file's tests are all done.
afterAll(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

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

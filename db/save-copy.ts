/** Small steps of keeping a file safe: what is on the disk before it gets its name, and a sum over its bytes. */
import { createHash } from 'node:crypto';
import {
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  mkdtempSync,
  openSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { accept, type Result, refuse } from '#lib/result.ts';

/** SHA-256 of a file in hex, read in pieces. */
export async function sha256Of(file: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(file), hash);
  return hash.digest('hex');
}

/** Waits until a file, or the names in a folder, are on the disk. */
export function syncToDisk(path: string): void {
  const descriptor = openSync(path, 'r');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

export function syncFolderOf(file: string): void {
  syncToDisk(dirname(file));
}

export function writeToDisk(file: string, text: string): void {
  writeFileSync(file, text);
  syncToDisk(file);
}

/** Everything SQLite may keep beside a file, which belongs to it and to no other. */
function besides(file: string): string[] {
  return [`${file}-wal`, `${file}-shm`, `${file}-journal`];
}

/** Decides whether a new file may be made at `file`: nothing is overwritten, nor mixed with what is left of another. */
export function decideNewFile(file: string): Result<null> {
  const folder = dirname(file);
  if (!existsSync(folder)) return refuse('unknown', `There is no folder ${folder}. Make it first, or choose another.`);
  if (!mayWriteIn(folder)) {
    return refuse('not_allowed', `Nothing can be written in ${folder}. Allow it, or choose another folder.`);
  }
  const taken = [file, ...besides(file)].find((name) => existsSync(name));
  if (taken === undefined) return accept(null);
  return refuse('taken', `There is already a file ${taken}. Choose another name, or move it away first.`);
}

/** Asks by making something there: the permission bits do not know of a medium that is locked. */
function mayWriteIn(folder: string): boolean {
  try {
    rmdirSync(mkdtempSync(join(folder, '.new-')));
    return true;
  } catch {
    return false;
  }
}

export function removeCopy(file: string): void {
  for (const name of [file, ...besides(file)]) rmSync(name, { force: true });
}

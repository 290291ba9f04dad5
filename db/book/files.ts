/** Small steps of keeping a file safe: what is on the disk before it gets its name, and a sum over its bytes. */
import { createHash } from 'node:crypto';
import {
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { accept, type Result, refuse } from '#lib/result/result.ts';

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

export function checksumFile(file: string): string {
  return `${file}.sha256`;
}

export function checksumLine(sha256: string, file: string): string {
  return `${sha256}  ${basename(file)}\n`;
}

/** The sum that stands beside a file, or null where none does. */
export function checksumBeside(file: string): Result<string | null> {
  const beside = checksumFile(file);
  if (!existsSync(beside)) return accept(null);
  const sum = /^([0-9a-f]{64}) [ *]/i.exec(readFileSync(beside, 'utf8'))?.[1];
  if (sum !== undefined) return accept(sum.toLowerCase());
  return refuse(
    'malformed',
    `${beside} holds no SHA-256. Use another backup, or move this file away to go on without.`,
  );
}

/** Why a file cannot be opened as a book. Each carries a plain sentence for the person; the file is left as it was. */
export class CannotOpenBook extends Error {}

/** There is no file, or it is something else. */
export class NotABook extends CannotOpenBook {}

export class FromNewerVersion extends CannotOpenBook {}

/** The file is a book, but this program may not write to it. */
export class ReadOnlyBook extends CannotOpenBook {}

/** SQLite itself finds the file damaged. */
export class DamagedBook extends CannotOpenBook {}

/** Bringing the book up to date failed; every change of it was taken back. */
export class UpdateFailed extends CannotOpenBook {}

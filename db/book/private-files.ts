/**
 * Nobody else on the machine reads the book: its files and folders are for the account that serves it. New ones are made
 * so by the umask of the programs; this looks at what stands there already.
 */
import { chmodSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** What the programs set: files 0600, folders 0700. */
export const PRIVATE_UMASK = 0o077;

const ENDINGS = [
  '',
  '-wal',
  '-shm',
  '.sign-ins',
  '.sign-ins-wal',
  '.sign-ins-shm',
  '.follow-key',
  '.certificate',
  '.backup-lock',
];

/**
 * Takes away what others may do with the files of a book and with these folders of its backups. Gives a sentence for
 * each that was wider: set right, or left where it is not ours or its disk knows no rights.
 */
export function shutToOthers(book: string, folders: readonly string[]): string[] {
  return [...ENDINGS.map((ending) => `${book}${ending}`), ...folders].flatMap(withContents).flatMap(shut);
}

function withContents(path: string): string[] {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) return [];
  return found.isDirectory() ? [path, ...readdirSync(path).map((name) => join(path, name))] : [path];
}

function shut(path: string): string[] {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found || (found.mode & PRIVATE_UMASK) === 0) return [];
  try {
    chmodSync(path, found.mode & 0o700);
  } catch {
    return [`Others on this machine can read ${path}, and it is not ours to shut.`];
  }
  const left = statSync(path).mode & PRIVATE_UMASK;
  return [
    left === 0
      ? `Others on this machine could read ${path}: it is shut now.`
      : `Others on this machine can read ${path}: its disk keeps no rights.`,
  ];
}

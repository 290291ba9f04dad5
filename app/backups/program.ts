import 'server-only';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { constants, setPriority } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { programFile } from '#app/server/programs.mjs';

/**
 * Runs the command line of the book as a process of its own: copying and proving a book take seconds of a core, and
 * the Block must not wait for them. Gives its exit code and what it said to either output.
 */
export async function bookProgram(words: readonly string[]) {
  // The server's own settings are not the program's: it would take the person's folder from npm's.
  const { npm_lifecycle_event: _, ...env } = process.env;
  const child = spawn(process.execPath, [programFile('cli'), ...words], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  giveWay(child.pid);
  const output = { said: '', warned: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output.said += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    output.warned += text;
  });
  const [code] = (await once(child, 'close')) as [number | null];
  return { code: code ?? 1, said: output.said.trim(), warned: output.warned.trim() };
}

/** Proving replays the whole log: the stations go first. Where a system does not allow it, both run alike. */
function giveWay(pid: number | undefined): void {
  try {
    if (pid !== undefined) setPriority(pid, constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // Only slower for the stations.
  }
}

/** The folders that are set: the one that is made where it is missing, then the second. */
export function copyFolders(book: string): string[] {
  const { folder, second } = copySettings(book);
  return second === undefined ? [folder] : [folder, second];
}

const USUAL_MINUTES = 10;

/** Where and how often copies are made. Folders belong to a laptop and not to the book, so its environment says them. */
export function copySettings(book: string) {
  const { PELTRY_BACKUPS: folder, PELTRY_BACKUPS_SECOND: second, PELTRY_BACKUP_MINUTES: minutes } = process.env;
  return {
    folder: resolve(folder || join(dirname(book), 'backups')),
    // Such as a stick; never made, because a missing one means that nobody put it in.
    second: second ? resolve(second) : undefined,
    // 0 where no copies are made by themselves.
    minutes: /^\d{1,4}$/.test(minutes ?? '') ? Number.parseInt(minutes ?? '', 10) : USUAL_MINUTES,
  };
}

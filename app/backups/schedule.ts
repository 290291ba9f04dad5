import 'server-only';
import { mkdirSync } from 'node:fs';
import { serverState } from '#app/server/state.ts';
import { copiesIn } from '#db/book/copies.ts';
import { logHead } from '#db/book/log.ts';
import { bookProgram, copyFolders, copySettings } from './program.ts';

/** What became of the last copy into one folder. */
interface CopyTried {
  readonly ok: boolean;
  readonly words: string;
}

interface Schedule {
  timer: NodeJS.Timeout | undefined;
  running: Promise<readonly CopyTried[]> | undefined;
  readonly last: Map<string, CopyTried>;
  file: string;
}

const place = globalThis as typeof globalThis & { peltryCopies?: Schedule };
place.peltryCopies ??= { timer: undefined, running: undefined, last: new Map(), file: '' };
const schedule = place.peltryCopies;

/** Copies the book every so many minutes from now on, whenever its log has grown. */
export function startCopies(file: string): void {
  const { minutes } = copySettings(file);
  schedule.file = file;
  if (schedule.timer || minutes === 0) return;
  schedule.timer = setInterval(() => void copyIfGrown(), minutes * 60_000).unref();
}

/** A change of stage is a moment to come back to. */
export function copySoon(): void {
  if (schedule.timer) setTimeout(() => void copyNow(schedule.file), 500).unref();
}

async function copyIfGrown(): Promise<void> {
  const { file } = schedule;
  const { book } = serverState();
  if (!book) return;
  const { hash } = logHead(book);
  const behind = copyFolders(file).some((folder) => copiesIn(folder, file)[0]?.about?.logHead.hash !== hash);
  if (behind) await copyNow(file);
}

/** Copies the book into each folder, one after the other; whoever asks meanwhile is given the same. */
export function copyNow(file: string): Promise<readonly CopyTried[]> {
  schedule.running ??= copyAll(file).finally(() => {
    schedule.running = undefined;
  });
  return schedule.running;
}

export function lastTried(folder: string): CopyTried | undefined {
  return schedule.last.get(folder);
}

async function copyAll(file: string): Promise<readonly CopyTried[]> {
  const tried: CopyTried[] = [];
  for (const [at, folder] of copyFolders(file).entries()) {
    const done = await copyInto(folder, { file, make: at === 0 });
    schedule.last.set(folder, done);
    tried.push(done);
  }
  return tried;
}

async function copyInto(folder: string, { file, make }: { file: string; make: boolean }): Promise<CopyTried> {
  try {
    if (make) mkdirSync(folder, { recursive: true });
    const { code, said, warned } = await bookProgram(['keep', folder, '--book', file]);
    return { ok: code === 0, words: code === 0 ? said : warned };
  } catch (fault) {
    return { ok: false, words: fault instanceof Error ? fault.message : String(fault) };
  }
}

import 'server-only';
import { ring, serverState } from '#app/server/state.ts';
import type { Book } from '#db/book/open.ts';
import { troubleOfProof } from '#db/book/trouble.ts';
import type { VerifyReport } from '#db/verify/report.ts';
import { bookProgram, copySettings } from './program.ts';

/** The first pages come first. */
const SOON_MS = 3000;

const place = globalThis as typeof globalThis & { peltryProved?: string };

/**
 * Proves the book by replay once, soon after the program was started: SQLite sees damage to its pages when it opens the
 * file, and only the log sees a bit that flipped in what a page says. Not again where the office lets writing go on.
 */
export function proveSoon({ file }: Book): void {
  if (place.peltryProved === file || copySettings(file).minutes === 0) return;
  place.peltryProved = file;
  setTimeout(() => void proveNow(file), SOON_MS).unref();
}

/** Proves the book in a process of its own; what does not prove is not written to from then on, and every page says why. */
export async function proveNow(file: string): Promise<void> {
  const { said, warned } = await bookProgram(['verify', '--book', file]);
  const here = serverState();
  const problems = problemsIn(said);
  if (!problems) console.error(`The book could not be proved after the start: ${warned || said}`);
  if (!problems?.length || here.trouble || here.book?.file !== file) return;
  here.trouble = troubleOfProof(problems);
  console.error(here.trouble.title);
  ring();
}

function problemsIn(said: string): VerifyReport['problems'] | null {
  try {
    return (JSON.parse(said) as VerifyReport).problems;
  } catch {
    return null;
  }
}

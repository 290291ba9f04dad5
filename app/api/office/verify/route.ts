import { bookProgram } from '#app/backups/program.ts';
import { officeRoute } from '#app/request/caller.ts';
import { jsonResponse } from '#app/server/responses.ts';
import type { VerifyReport } from '#db/verify/report.ts';

/** Proves the book in a process of its own, and says in a sentence what came out. */
export const POST = officeRoute(async ({ file }) => {
  const { code, said, warned } = await bookProgram(['verify', '--book', file]);
  return jsonResponse({ ok: code === 0, words: inWords(said) ?? warned });
});

function inWords(said: string): string | null {
  try {
    const { ok, problems, chain, replay, firstBadLine } = JSON.parse(said) as VerifyReport;
    if (!ok) return `${problems.join(' ')}${firstBadLine === null ? '' : ` The first wrong line is ${firstBadLine}.`}`;
    const { seq, hash } = chain.head;
    return `The book is whole: ${chain.message} ${replay.message} Its head is line ${seq}, ${hash.slice(0, 16)}.`;
  } catch {
    return null;
  }
}

import { bookProgram } from '#app/backups/program.ts';
import { theBook } from '#app/request/book.ts';
import { officeAct } from '#app/request/caller.ts';
import { problem } from '#app/server/problem.ts';
import type { VerifyReport } from '#db/verify/report.ts';

/** Proves the book in a process of its own, and says in a sentence what came out. */
export async function POST(request: Request): Promise<Response> {
  const caller = await officeAct(request);
  if (!caller.ok) return problem(caller);
  const book = await theBook();
  const { code, said, warned } = await bookProgram(['verify', '--book', book.file]);
  const ok = code === 0;
  return Response.json({ ok, words: inWords(said) ?? warned }, { headers: { 'cache-control': 'no-store' } });
}

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

import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { theBook } from '#app/book.ts';
import { callerAt } from '#app/caller.ts';
import { give } from '#app/give.ts';
import { problem, troubleProblem } from '#app/problem.ts';
import { readJson } from '#app/wire.ts';
import { digestOfCode, drawCode } from '#db/signing-in/codes.ts';
import { refuse } from '#lib/result.ts';

const said = z.strictObject({ personId: z.int().positive(), minutes: z.int() });

/** Draws a one-time code for a person, and says it this once: the book learns its hash only. */
export async function POST(request: Request): Promise<Response> {
  const caller = await callerAt(['office']);
  if (!caller.ok) return problem(caller);
  const read = await readJson(request);
  if (!read.ok) return problem(read);
  const typed = said.safeParse(read.value);
  if (!typed.success) return problem(refuse('malformed', 'Reload the page and find the person again.', 'personId'));
  const code = drawCode();
  const { worker } = caller.value;
  const envelope = { command: 'member.code', worker, station: 'office', key: randomUUID() } as const;
  const input = { ...typed.data, codeHash: digestOfCode(code) };
  const answer = give(await theBook(), { ...envelope, at: new Date().toISOString(), input });
  if ('stopped' in answer) return troubleProblem(answer.stopped);
  if (!answer.ok) return problem(answer);
  return Response.json({ ok: true, code, minutes: typed.data.minutes }, { headers: { 'cache-control': 'no-store' } });
}

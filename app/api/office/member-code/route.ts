import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { give, theBook } from '#app/book.ts';
import { callerOf } from '#app/caller.ts';
import { isFromHere } from '#app/own.ts';
import { problem } from '#app/problem.ts';
import { drawCode, hashOfCode } from '#db/own/code.ts';
import { refuse } from '#lib/result.ts';

const said = z.strictObject({ personId: z.int().positive(), minutes: z.int() });

/** Draws a one-time code for a person, and says it this once: the book learns its hash only. */
export async function POST(request: Request): Promise<Response> {
  if (!isFromHere(request)) return problem(refuse('not_allowed', 'This came from another site: nothing was done.'));
  const read = said.safeParse(await request.json().catch(() => null));
  if (!read.success) return problem(refuse('malformed', 'Reload the page and find the person again.', 'personId'));
  const { worker } = await callerOf();
  const code = drawCode();
  const envelope = { command: 'member.code', worker, station: 'office', key: randomUUID() } as const;
  const input = { ...read.data, codeHash: hashOfCode(code) };
  const answer = give(await theBook(), { ...envelope, at: new Date().toISOString(), input });
  if (!answer.ok) return problem(answer);
  return Response.json({ ok: true, code, minutes: read.data.minutes }, { headers: { 'cache-control': 'no-store' } });
}

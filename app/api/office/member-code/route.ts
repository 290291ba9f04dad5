import { randomUUID } from 'node:crypto';
import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { give } from '#app/server/answer-entry.ts';
import { jsonResponse, problem, troubleProblem } from '#app/server/responses.ts';
import { digestOfCode, drawCode } from '#db/sign-in/credentials.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({ personId: z.int().positive(), minutes: z.int() });
const unread = () => refuse('malformed', 'Reload the page and find the person again.', 'personId');

/** Draws a one-time code for a person, and says it this once: the book learns its hash only. */
export const POST = saidRoute({ schema, unread, stations: ['office'] }, ({ book, caller, said }) => {
  const code = drawCode();
  const envelope = { command: 'member.code', worker: caller.worker, station: 'office', key: randomUUID() } as const;
  const input = { ...said, codeHash: digestOfCode(code) };
  const answer = give(book, { ...envelope, at: new Date().toISOString(), input });
  if ('stopped' in answer) return troubleProblem(answer.stopped);
  if (!answer.ok) return problem(answer);
  return jsonResponse({ ok: true, code, minutes: said.minutes });
});

import 'server-only';
import type { z } from 'zod';
import type { Station } from '#db/command.ts';
import { accept, type Refusal, type Result } from '#lib/result.ts';
import { type Caller, callerAt } from './caller.ts';
import { readJson } from './wire.ts';

interface Asked<S extends z.ZodType> {
  readonly schema: S;
  /** What is answered where the schema cannot read it. */
  readonly unread: Refusal;
  /** Of which stations whoever says it must be; of any where none are named. */
  readonly stations?: readonly Station[];
}

interface Said<T> {
  readonly caller: Caller;
  readonly said: T;
}

/** What one of the staff says in a request of our own pages, and who it is. */
export async function saidBy<S extends z.ZodType>(
  request: Request,
  { schema, unread, stations }: Asked<S>,
): Promise<Result<Said<z.output<S>>>> {
  const caller = await callerAt(stations);
  if (!caller.ok) return caller;
  const read = await readJson(request);
  if (!read.ok) return read;
  const typed = schema.safeParse(read.value);
  return typed.success ? accept({ caller: caller.value, said: typed.data }) : unread;
}

import 'server-only';
import { headers } from 'next/headers';

/** Who sends a command: the name that the log will carry. */
export interface Caller {
  readonly worker: string;
}

/** Reads the caller of the request at hand. The server listens on this machine only, so the table names itself. */
export async function callerOf(): Promise<Caller> {
  const named = (await headers()).get('x-worker');
  const worker = named === null ? '' : decodeURIComponent(named).trim().slice(0, 80);
  return { worker: worker === '' ? 'this table' : worker };
}

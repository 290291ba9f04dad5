/** One attempt to bring an entry to the door, and what its answer says. */
import type { CommandName, ValueOf } from '#db/commands.ts';
import type { Refusal } from '#lib/result/result.ts';
import type { Entry } from './outbox-store.ts';
import { readStored } from './use-stored.ts';

interface Saved<N extends CommandName = CommandName> {
  readonly ok: true;
  readonly value: ValueOf<N>;
  readonly line: number;
}

export type Reply<N extends CommandName = CommandName> = Saved<N> | Refusal;

/** The server answers, and cannot write: the entry waits, and the sentence says what is the matter. */
export interface Stopped {
  readonly stopped: string;
}

const ANSWER_WITHIN_MS = 8000;

/** Gives nothing where no answer came or the server failed: then the outcome is unknown, and the entry is sent again. */
export async function send(entry: Entry): Promise<Reply | Stopped | undefined> {
  try {
    const response = await fetch(`/api/commands/${entry.command}`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        'idempotency-key': entry.key,
        'x-station': entry.station,
        'x-worker': encodeURIComponent(workerName()),
      },
      body: JSON.stringify(entry.input),
      signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
    });
    return await readReply(response);
  } catch {
    return undefined;
  }
}

async function readReply(response: Response): Promise<Reply | Stopped | undefined> {
  if (response.ok) return (await response.json()) as Saved;
  if (response.status === 503 && isProblem(response)) return { stopped: (await response.json()).title };
  // Whoever was signed out loses nothing: the entry waits until somebody has signed in again.
  if (response.status === 401 || response.status >= 500 || !isProblem(response)) return undefined;
  const { detail, code, field, also } = await response.json();
  return { ok: false, code, message: detail, ...(field && { field }), ...(also && { also }) } as Refusal;
}

function isProblem(response: Response): boolean {
  return response.headers.get('content-type')?.includes('problem+json') === true;
}

function workerName(): string {
  return readStored('localStorage', 'peltry-worker') ?? '';
}

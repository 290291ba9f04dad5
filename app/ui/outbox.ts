/**
 * The outbox: what a station has said and the book has not yet answered.
 * An entry is stored in the browser before it is sent, goes out one at a time in the order it was made, and is sent
 * with the same key until it is answered: so a dropped line, a reload or a closed tab neither loses nor doubles it.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Refusal } from '#lib/result.ts';

export interface Entry {
  /** The order in which entries were made, given by the store. */
  readonly id?: number;
  readonly key: string;
  readonly station: string;
  readonly command: string;
  readonly input: unknown;
  /** What a person calls it, such as `Lot 12`. */
  readonly label: string;
  readonly refusal?: Refusal;
}

export interface Saved {
  readonly ok: true;
  readonly value: unknown;
  readonly line: number;
}

export type Reply = Saved | Refusal;

interface Store extends DBSchema {
  entries: { key: number; value: Entry };
}

export interface OutboxState {
  readonly waiting: number;
  readonly refused: readonly Entry[];
  /** True while the server does not answer. */
  readonly cutOff: boolean;
}

type Listener = (state: OutboxState) => void;

const RETRY_MS = 1000;
const ANSWER_WITHIN_MS = 8000;

let database: Promise<IDBPDatabase<Store>> | undefined;
let sending = false;
let state: OutboxState = { waiting: 0, refused: [], cutOff: false };
const listeners = new Set<Listener>();
const replies = new Map<string, (reply: Reply) => void>();

function entries(): Promise<IDBPDatabase<Store>> {
  database ??= openDB<Store>('peltry-outbox', 1, {
    upgrade: (store) => void store.createObjectStore('entries', { keyPath: 'id', autoIncrement: true }),
  });
  return database;
}

/** 128 random bits; `crypto.randomUUID` is missing on a plain-http host name, `getRandomValues` is not. */
function drawKey(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Stores an entry, sends it when its turn comes, and gives the book's answer. */
export async function post(entry: Pick<Entry, 'station' | 'command' | 'input' | 'label'>): Promise<Reply> {
  const stored = { ...entry, key: drawKey() };
  await (await entries()).add('entries', stored);
  const reply = new Promise<Reply>((resolve) => replies.set(stored.key, resolve));
  await tell();
  void sendAll();
  return reply;
}

/** Takes a refused entry out, for its typed text to go back into the form or to be let go. */
export async function takeBack(id: number): Promise<void> {
  await (await entries()).delete('entries', id);
  await tell();
}

export function watchOutbox(listener: Listener): () => void {
  listeners.add(listener);
  listener(state);
  void tell().then(sendAll);
  return () => listeners.delete(listener);
}

async function tell(change: Partial<OutboxState> = {}): Promise<void> {
  const all = await (await entries()).getAll('entries');
  const refused = all.filter((entry) => entry.refusal);
  state = { ...state, ...change, waiting: all.length - refused.length, refused };
  for (const listener of listeners) listener(state);
}

async function sendAll(): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    for (let entry = await oldestWaiting(); entry; entry = await oldestWaiting()) await sendUntilAnswered(entry);
  } finally {
    sending = false;
  }
}

async function oldestWaiting(): Promise<Entry | undefined> {
  const all = await (await entries()).getAll('entries');
  return all.find((entry) => !entry.refusal);
}

async function sendUntilAnswered(entry: Entry): Promise<void> {
  let reply = await send(entry);
  while (!reply) {
    await tell({ cutOff: true });
    await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
    reply = await send(entry);
  }
  await settle(entry, reply);
}

/** An accepted entry leaves the outbox; a refused one stays, unless the form that made it is there to show why. */
async function settle(entry: Entry, reply: Reply): Promise<void> {
  const waitingForm = replies.get(entry.key);
  replies.delete(entry.key);
  const store = await entries();
  if (entry.id !== undefined) {
    if (reply.ok || waitingForm) await store.delete('entries', entry.id);
    else await store.put('entries', { ...entry, refusal: reply });
  }
  await tell({ cutOff: false });
  waitingForm?.(reply);
}

/** One attempt. Gives nothing where no answer came or the server failed: then the outcome is unknown. */
async function send(entry: Entry): Promise<Reply | undefined> {
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

async function readReply(response: Response): Promise<Reply | undefined> {
  if (response.ok) return (await response.json()) as Saved;
  if (response.status >= 500 || !response.headers.get('content-type')?.includes('problem+json')) return undefined;
  const { detail, code, field, also } = await response.json();
  return { ok: false, code, message: detail, ...(field && { field }), ...(also && { also }) } as Refusal;
}

function workerName(): string {
  return localStorage.getItem('peltry-worker') ?? '';
}

/**
 * The outbox: what a station has said and the book has not yet answered.
 * An entry is stored in the browser before it is sent, goes out one at a time in the order it was made, and is sent
 * with the same key until it is answered: so a dropped line, a reload or a closed tab neither loses nor doubles it.
 * All tabs of a browser share one queue; the tab that holds the lease sends for all of them.
 */
import type { Refusal } from '#lib/result.ts';
import {
  addEntry,
  allEntries,
  type Entry,
  giveLeaseBack,
  markRefused,
  removeEntry,
  takeLease,
} from './outbox-store.ts';
import { type Reply, type Stopped, send } from './send.ts';

export type { Entry } from './outbox-store.ts';
export type { Reply, Saved } from './send.ts';

/** An entry that the book has accepted, with its log line: what is drawn until a view of that line has come. */
export interface Answered {
  readonly entry: Entry;
  readonly line: number;
  readonly value: unknown;
}

export interface OutboxState {
  readonly waiting: number;
  readonly entries: readonly Entry[];
  readonly refused: readonly Entry[];
  /** The newest answers, oldest first. */
  readonly answered: readonly Answered[];
  /** True while the server does not answer. */
  readonly cutOff: boolean;
  /** Why the book takes nothing now, in a sentence; null while it does. */
  readonly stopped: string | null;
}

type Posted = Pick<Entry, 'station' | 'command' | 'input' | 'label'>;
/** How the way to the book is. */
type Line = Pick<OutboxState, 'cutOff' | 'stopped'>;
type Listener = (state: OutboxState) => void;
type Word =
  | ({ readonly say: 'changed' } & Line)
  | { readonly say: 'reply'; readonly entry: Entry; readonly reply: Reply };

const RETRY_MS = 1000;
const ANSWERS_KEPT = 60;

const tab = drawKey();
const listeners = new Set<Listener>();
const forms = new Map<string, (reply: Reply) => void>();
export const EMPTY_OUTBOX: OutboxState = {
  waiting: 0,
  entries: [],
  refused: [],
  answered: [],
  cutOff: false,
  stopped: null,
};
let state = EMPTY_OUTBOX;
let sending = false;
let channel: BroadcastChannel | undefined;

/** 128 random bits; `crypto.randomUUID` is missing on a plain-http host name, `getRandomValues` is not. */
export function drawKey(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Stores an entry, sends it when its turn comes, and gives the book's answer to the form that waits for it. */
export async function post(entry: Posted): Promise<Reply> {
  const key = drawKey();
  const reply = new Promise<Reply>((resolve) => forms.set(key, resolve));
  await store(entry, key);
  return reply;
}

/**
 * Stores an entry for sending under a key of {@link drawKey}. Nobody waits: a refusal stays in the outbox until somebody
 * takes it back.
 */
export async function enqueue(entry: Posted, key: string): Promise<void> {
  await store(entry, key);
}

async function store({ station, command, input, label }: Posted, key: string): Promise<void> {
  await addEntry({ station, command, input, label, key });
  await tellAll();
  void sendAll();
}

/** Takes a refused entry out, for its typed text to go back into the form or to be let go. */
export async function takeBack(id: number): Promise<void> {
  await removeEntry(id);
  await tellAll();
}

export function watchOutbox(listener: Listener): () => void {
  listeners.add(listener);
  listener(state);
  listenToTabs();
  void tell().then(sendAll);
  return () => listeners.delete(listener);
}

/** Other tabs say when the queue has changed; a tab that wakes up looks for itself. */
function listenToTabs(): void {
  if (channel) return;
  channel = new BroadcastChannel('peltry-outbox');
  channel.onmessage = ({ data }: MessageEvent<Word>) => {
    if (data.say === 'changed') void tell({ cutOff: data.cutOff, stopped: data.stopped });
    else {
      note(data.entry, data.reply);
      void hear(data.entry, data.reply);
    }
  };
  setInterval(() => state.waiting > 0 && void sendAll(), RETRY_MS);
  addEventListener('online', () => void sendAll());
  addEventListener('pagehide', () => void giveLeaseBack(tab));
}

async function tell(change: Partial<OutboxState> = {}): Promise<void> {
  const all = await allEntries();
  const refused = all.filter((entry) => entry.refusal);
  const entries = all.filter((entry) => !entry.refusal);
  state = { ...state, ...change, waiting: entries.length, entries, refused };
  for (const listener of listeners) listener(state);
}

async function tellAll(change: Partial<OutboxState> = {}): Promise<void> {
  await tell(change);
  listenToTabs();
  channel?.postMessage({ say: 'changed', cutOff: state.cutOff, stopped: state.stopped } satisfies Word);
}

/** Sends while there is something to send; one run at a time in this tab, and one tab at a time. */
async function sendAll(): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    let entry = (await allEntries()).find(({ refusal }) => !refusal);
    while (entry && (await takeLease(tab))) {
      await sendOnce(entry);
      entry = (await allEntries()).find(({ refusal }) => !refusal);
    }
    await giveLeaseBack(tab);
  } finally {
    sending = false;
  }
}

async function sendOnce(entry: Entry): Promise<void> {
  const renewing = setInterval(() => void takeLease(tab), RETRY_MS);
  const reply = await send(entry).finally(() => clearInterval(renewing));
  if (reply && 'ok' in reply) return settle(entry, reply);
  await noteSilence(reply?.stopped ?? null);
  await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
}

/** The entry waits; what the screens say of it changes once, not at every attempt. */
async function noteSilence(stopped: Stopped['stopped'] | null): Promise<void> {
  if (!state.cutOff || state.stopped !== stopped) await tellAll({ cutOff: true, stopped });
}

/** An accepted entry leaves the outbox; a refused one stays until the form that made it, or a person, has seen why. */
async function settle(entry: Entry, reply: Reply): Promise<void> {
  // The answer is noted before the entry leaves, so that no screen sees the book without both.
  note(entry, reply);
  channel?.postMessage({ say: 'reply', entry, reply } satisfies Word);
  if (entry.id !== undefined) {
    if (reply.ok || forms.has(entry.key)) await removeEntry(entry.id);
    else await markRefused(entry.id, reply as Refusal);
  }
  await hear(entry, reply);
  channel?.postMessage({ say: 'changed', cutOff: false, stopped: null } satisfies Word);
}

/** Tells the form that waits for this reply, and every screen. */
async function hear(entry: Entry, reply: Reply): Promise<void> {
  const form = forms.get(entry.key);
  forms.delete(entry.key);
  if (form && !reply.ok && entry.id !== undefined) await removeEntry(entry.id);
  await tell({ cutOff: false, stopped: null });
  form?.(reply);
}

function note(entry: Entry, reply: Reply): void {
  if (!reply.ok || state.answered.some((one) => one.entry.key === entry.key)) return;
  const answered = [...state.answered, { entry, line: reply.line, value: reply.value }].slice(-ANSWERS_KEPT);
  state = { ...state, answered };
}

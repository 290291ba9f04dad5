/**
 * The outbox: what a station has said and the book has not yet answered.
 * An entry is stored in the browser before it is sent, goes out one at a time in the order it was made, and is sent
 * with the same key until it is answered: so a dropped line, a reload or a closed tab neither loses nor doubles it.
 * All tabs of a browser share one queue; the tab that holds the lease sends for all of them.
 * An entry that the browser does not store is sent from this tab's memory while the server answers; where it does not,
 * the entry goes back into its form, and saving the same once more sends it with the same key.
 */
import type { CommandName, ValueOf } from '#db/commands.ts';
import type { Refusal } from '#lib/result/result.ts';
import {
  become,
  belongsTo,
  giveBack,
  isOnlyHere,
  isStored,
  keepHere,
  NOT_SAVED,
  type Owner,
  type Posted,
  type Present,
  present,
  read,
  store,
  takeUp,
  tried,
} from './outbox-held.ts';
import { type Entry, giveLeaseBack, markRefused, removeEntry, takeLease } from './outbox-store.ts';
import { drawKey } from './storage.ts';

export type { Entry } from './outbox-store.ts';

interface Saved<N extends CommandName = CommandName> {
  readonly ok: true;
  readonly value: ValueOf<N>;
  readonly line: number;
}

export type Reply<N extends CommandName = CommandName> = Saved<N> | Refusal;

/**
 * Why nothing goes in now: the server does not answer, nobody is signed in, or the book is not written to, which its
 * own sentence says. Whatever it is, the entries wait. Empty while the book takes what it is given.
 */
type Why = '' | 'silent' | 'Signed out.' | (string & {});

/** An entry that the book has accepted, with its log line: what is drawn until a view of that line has come. */
interface Answered {
  readonly entry: Entry;
  readonly line: number;
  readonly value: ValueOf<CommandName>;
}

export interface OutboxState extends Present {
  readonly waiting: number;
  /** What waits for another worker to sign in, or was typed for another book: it is not sent from here. */
  readonly held: readonly Entry[];
  /** The newest answers, oldest first. */
  readonly answered: readonly Answered[];
  readonly why: Why;
  /** For whom the server takes this browser, and which book it has, as far as that was heard. */
  readonly here: Owner;
}

/** How the way to the book is. */
type Line = Pick<OutboxState, 'why' | 'here'>;
type Listener = (state: OutboxState) => void;
/** What one tab tells the others: that the queue has changed, or the book's answer to an entry. */
type Word = Line | { readonly entry: Entry; readonly reply: Reply };

const RETRY_MS = 1000;
const ANSWER_WITHIN_MS = 8000;
const ANSWERS_KEPT = 60;
/** So often the server is silent before an entry that is not stored goes back into its form. */
const SILENCES = 3;

const tab = drawKey();
const listeners = new Set<Listener>();
/** A form that waits for the reply to its entry, by the entry's key: no other reply comes to it. */
type Waiting<N extends CommandName = CommandName> = { resolve(reply: Reply<N>): void }['resolve'];

const forms = new Map<string, Waiting>();
/** Whom the page names that is drawn here: whoever types sees that name. */
let drawn: Owner = { worker: '', book: '' };
export const EMPTY_OUTBOX: OutboxState = { ...present(), waiting: 0, held: [], answered: [], why: '', here: drawn };
let state = EMPTY_OUTBOX;
let sending = false;
let listening = false;
let channel: BroadcastChannel | undefined;
let storing = Promise.resolve();
let silences = 0;

/** Stores an entry, sends it when its turn comes, and gives the book's answer to the form that waits for it. */
export function post<N extends CommandName>(entry: Posted<N>): Promise<Reply<N>> {
  // An entry of one command is an entry; while the command is not known by name, the compiler does not see that.
  const any = entry as Posted;
  return new Promise<Reply<N>>((resolve) => enqueue(any, resolve));
}

/**
 * Stores an entry for sending; from here on it is seen to wait. Where no form waits for the reply, a refusal stays in
 * the outbox until somebody takes it back.
 */
export function enqueue(posted: Posted, form?: Waiting): void {
  listenToTabs();
  const entry = takeUp(posted, drawn);
  if (form) forms.set(entry.key, form);
  publish();
  storing = storing.then(() => keep(entry));
}

/**
 * What comes behind an entry that is not stored is not stored either, so that their order stands; and nothing is where
 * another tab could send it and not say what the book has answered.
 */
async function keep(entry: Entry): Promise<void> {
  if (state.notKept || !channel) keepHere(entry.key);
  else await store(entry);
  await tellAll();
  void sendAll();
}

/** Takes out an entry that was refused or is held, for its typed text to go back into the form or to be let go. */
export async function takeBack(id: number): Promise<void> {
  const entry = [...state.refused, ...state.held].find((one) => one.id === id);
  // As long as the store has it, another tab may send it.
  if (entry && (id < 0 || (await tried(removeEntry(id).then(() => 1))))) become(entry.key, 'let go');
  await tellAll();
}

/** `owner` is what the page says of who is signed in and of the book: every tab of the browser hears it. */
export function watchOutbox(listener: Listener, owner?: Owner): () => void {
  listeners.add(listener);
  listener(state);
  listenToTabs();
  if (owner) drawn = owner;
  void tellAll(owner && { here: owner }).then(sendAll);
  return () => listeners.delete(listener);
}

/** Other tabs say when the queue has changed; a tab that wakes up looks for itself. */
function listenToTabs(): void {
  if (listening) return;
  listening = true;
  setInterval(() => state.waiting > 0 && void tell().then(sendAll), RETRY_MS);
  addEventListener('pagehide', () => void tried(giveLeaseBack(tab)));
  try {
    channel = new BroadcastChannel('peltry-outbox');
  } catch {
    // An old browser has none, and one may refuse it together with its storage.
    return;
  }
  channel.onmessage = ({ data }: MessageEvent<Word>) => {
    if ('why' in data) void tell(data);
    else {
      note(data.entry, data.reply);
      void hear(data.entry, data.reply);
    }
  };
}

/** Reads the store, as far as it can be read, and shows what is there. */
async function tell(change: Partial<OutboxState> = {}): Promise<void> {
  await read();
  publish(change);
}

function publish(change: Partial<OutboxState> = {}): void {
  const next = { ...state, ...change, ...present() };
  const held = next.entries.filter((one) => !belongsTo(one, next.here));
  state = { ...next, waiting: next.entries.length, held };
  for (const listener of listeners) listener(state);
}

async function tellAll(change: Partial<OutboxState> = {}): Promise<void> {
  await tell(change);
  tellTabs();
}

function tellTabs(): void {
  channel?.postMessage({ why: state.why, here: state.here } satisfies Word);
}

/** Sends while there is something to send; one run at a time in this tab, and one tab at a time. */
async function sendAll(): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    let entry = await nextToSend();
    // Where the lease can be neither read nor written, two tabs may send the same: its key keeps it from being doubled.
    while (entry && (await tried(takeLease(tab))) !== false) {
      await sendOnce(entry);
      entry = await nextToSend();
    }
    if (state.notKept && giveUp()) await tellAll();
    await tried(giveLeaseBack(tab));
  } finally {
    sending = false;
  }
}

async function nextToSend(): Promise<Entry | undefined> {
  await read();
  // One that is on its way into the store is sent once it is known whether it is there. What only this tab has is not
  // left to wait for its worker: the server says no, and it goes back into its form.
  // It does not go past what its worker typed before it, though: then it is given back.
  const { entries } = present();
  const isFirst = (one: Entry) => entries.find((first) => belongsTo(first, one as Entry & Owner)) === one;
  return entries.find((one) => (isStored(one) ? belongsTo(one, state.here) : isOnlyHere(one) && isFirst(one)));
}

async function sendOnce(entry: Entry): Promise<void> {
  const renewing = setInterval(() => void tried(takeLease(tab)), RETRY_MS);
  become(entry.key, 'sent');
  const reply = await send(entry).finally(() => clearInterval(renewing));
  if (typeof reply === 'object') return settle(entry, reply);
  // The server has said whose turn it is: what comes behind may be theirs.
  if (!belongsTo(entry, state.here)) return tellAll();
  await noteSilence(reply);
  await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
}

/** The entry waits; what the screens say of it changes once, not at every attempt. */
async function noteSilence(why: Why): Promise<void> {
  if (giveUp() || state.why !== why) await tellAll({ why });
}

/** After some silence, what is not stored goes back into its form. Gives whether anything did. */
function giveUp(): boolean {
  silences += 1;
  const keys = silences < SILENCES ? [] : giveBack();
  for (const key of keys) {
    forms.get(key)?.(NOT_SAVED);
    forms.delete(key);
  }
  return keys.length > 0;
}

/** An accepted entry leaves the outbox; a refused one stays until the form that made it, or a person, has seen why. */
async function settle(entry: Entry, reply: Reply): Promise<void> {
  // The answer is noted before the entry leaves, so that no screen sees the book without both.
  note(entry, reply);
  channel?.postMessage({ entry, reply } satisfies Word);
  if (!reply.ok && !forms.has(entry.key)) {
    become(entry.key, 'refused', reply);
    await tried(markRefused(entry.id ?? 0, reply));
  }
  await hear(entry, reply);
  tellTabs();
}

/** Tells the form that waits for this reply, and every screen. */
async function hear(entry: Entry, reply: Reply): Promise<void> {
  silences = 0;
  const form = forms.get(entry.key);
  forms.delete(entry.key);
  if (reply.ok) become(entry.key, 'saved');
  else if (form) become(entry.key, 'let go');
  await tell({ why: '' });
  form?.(reply);
}

function note(entry: Entry, reply: Reply): void {
  if (!reply.ok || state.answered.some((one) => one.entry.key === entry.key)) return;
  const answered = [...state.answered, { ...reply, entry }].slice(-ANSWERS_KEPT);
  state = { ...state, answered };
}

/** Gives why where no answer came or the server failed: then the outcome is unknown, and the entry is sent again. */
async function send(entry: Entry): Promise<Reply | Why> {
  try {
    const response = await fetch(`/api/commands/${entry.command}`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        'idempotency-key': entry.key,
        'x-station': entry.station,
        'x-worker': encodeURIComponent(entry.worker ?? ''),
        // One that an older page stored says no epoch.
        'x-book': entry.page ?? entry.book ?? '',
      },
      body: JSON.stringify(entry.input),
      signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
    });
    return await readReply(entry, response);
  } catch {
    return 'silent';
  }
}

async function readReply(entry: Entry, response: Response): Promise<Reply | Why> {
  const { ok, status, headers } = response;
  if (!ok && !headers.get('content-type')?.includes('problem+json')) return 'silent';
  const said = (name: string) => decodeURIComponent(headers.get(`x-peltry-${name}`) ?? '');
  state = { ...state, here: { worker: said('worker'), book: said('book') } };
  if (ok) return (await response.json()) as Saved;
  if (status >= 500) return (await response.json()).title;
  // Whoever was signed out loses nothing: a stored entry waits until its worker has signed in again.
  if (isStored(entry) && (status === 401 || !belongsTo(entry, state.here))) return 'Signed out.';
  const { detail: message, ...refused } = await response.json();
  return { ...refused, ok: false, message } as Refusal;
}

/** What stands before the sentence of a refusal. */
export function whatBecameOf({ label, refusal }: Entry): string {
  return `${label}${refusal === NOT_SAVED ? '' : ' was refused'}.`;
}

/**
 * What the outbox holds: what lies in the browser's store, as far as it can be read, and what this tab has in memory only.
 * The store may refuse, throw or never answer at any call; nothing that was entered hangs on it.
 */
import type { CommandName } from '#db/commands.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { nextStanding, type Standing } from './outbox-states.ts';
import { addEntry, allEntries, type Entry, removeEntry, type Stored } from './outbox-store.ts';
import { drawKey } from './storage.ts';
import type { TypedInput } from './text-field.tsx';

/** All that waits and all that was refused. */
export interface Present {
  readonly entries: readonly Entry[];
  readonly refused: readonly Entry[];
  /** True while an entry is on its way into the browser's store: a tab that is killed now loses it. */
  readonly saving: boolean;
  /** True while an entry waits that the browser did not store: only this tab has it. */
  readonly notKept: boolean;
  /** True while an entry that neither the browser nor the book has lies back in its form. */
  readonly notSaved: boolean;
}

/** Who types and for which book; empty where that is not known. */
export type Owner = Required<Pick<Stored, 'worker' | 'book'>> & Pick<Stored, 'page'>;

/** Whether an entry may be sent by this worker to this book. What is not known on either side is for the server to say. */
export function belongsTo({ worker, book }: Entry, here: Owner): boolean {
  const differ = (one = '', other = '') => one && other && one !== other;
  return !differ(worker, here.worker) && !differ(book, here.book);
}

/** What a form gives to the outbox. */
export type Posted<N extends CommandName = CommandName> = {
  readonly [C in N]: Pick<Stored, 'station' | 'label'> & { readonly command: C; readonly input: TypedInput<C> };
}[N];

/** A browser that has not stored or read an entry by then is taken for one that does not. */
const STORED_WITHIN_MS = 2000;

/** The refusal of an entry that neither the browser nor the book has. */
export const NOT_SAVED = refuse('unknown', 'Not saved: the server does not answer. Save it again.');

/** The entries in the browser's store, as they were read last. */
let stored: readonly Entry[] = [];
/** Entries of this tab that are not seen in the store: on their way into it, or not taken by it. Their ids are below 0. */
let mine: readonly Entry[] = [];
/** By key, where an entry stands, whatever the store says of it: one that was found in the store is kept. */
const standings = new Map<string, Standing>();
/** By key, why an entry was refused. */
const refusals = new Map<string, Refusal>();
/** No number that was given before a reload comes again. */
let nextId = -Date.now();

/**
 * Takes an entry up, to be stored. One that lies back in its form and is given as it was has the key that it had; one that
 * was taken back there is a new one.
 */
export function takeUp(posted: Posted, owner: Owner): Entry {
  const said = saidIn({ ...posted, ...owner });
  const again = mine.find((one) => !isGone(one.key) && refusals.get(one.key) === NOT_SAVED && saidIn(one) === said);
  const entry = { ...posted, ...owner, key: again?.key ?? drawKey() };
  standings.set(entry.key, nextStanding(standings.get(entry.key) ?? 'typed', 'typed'));
  nextId -= 1;
  mine = [...mine.filter((one) => one !== again), { ...entry, id: nextId }];
  addEventListener('beforeunload', warn);
  return entry;
}

const saidIn = (posted: Posted) => JSON.stringify({ ...posted, key: 0, id: 0 });

const standingOf = (key: string): Standing => standings.get(key) ?? 'kept';
/** Only what is taken out of the store for good is not shown any more. */
const isGone = (key: string) => ['saved', 'let go'].includes(standingOf(key));
export const isOnlyHere = (one: Entry) => standingOf(one.key) === 'not kept';

/** Says where an entry stands from now on, whatever the store says of it. */
export function become(key: string, next: Standing, refusal?: Refusal): void {
  standings.set(key, nextStanding(standingOf(key), next));
  if (refusal) refusals.set(key, refusal);
}

export async function store(entry: Entry): Promise<void> {
  if ((await tried(addEntry(entry))) === undefined) keepHere(entry.key);
  else become(entry.key, 'kept');
}

/** From now on only this tab has the entry. */
export function keepHere(key: string): void {
  become(key, 'not kept');
}

/** Asks whoever leaves the page with an entry of which nobody knows that anything else has it. */
function warn(event: Event): void {
  if (mine.length > 0) event.preventDefault();
}

/** What the store answers; undefined where it fails, or does not answer. */
export function tried<T>(asked: Promise<T>): Promise<T | undefined> {
  const late = new Promise<undefined>((resolve) => setTimeout(resolve, STORED_WITHIN_MS));
  return Promise.race([asked, late]).catch(() => undefined);
}

/** Reads the store; what was put into it since it was read last is not seen in it while it cannot be read. */
export async function read(): Promise<void> {
  const before = mine.filter((one) => ['kept', 'sent'].includes(standingOf(one.key)));
  const all = await tried(allEntries());
  if (!all) {
    for (const { key } of before) keepHere(key);
    return;
  }
  stored = all;
  mine = mine.filter((one) => !before.includes(one));
  // What is done with here, what the store did not let go of when it should have, and what was given back to its form and
  // saved once more, while the store had it after all.
  for (const { key, id = 0 } of all) {
    if (isGone(key) || all.find((one) => one.key === key)?.id !== id) await tried(removeEntry(id));
  }
}

/** All that waits and all that was refused, whether it is stored or not. */
export function present(): Present {
  mine = mine.filter(({ key }) => !isGone(key));
  const unseen = mine.filter(({ key }) => !stored.some((one) => one.key === key));
  const all = [...stored, ...unseen].flatMap((entry) => {
    const refusal = standingOf(entry.key) === 'refused' && refusals.get(entry.key);
    return isGone(entry.key) ? [] : [refusal ? { ...entry, refusal } : entry];
  });
  const entries = all.filter(({ refusal }) => !refusal);
  const refused = all.filter(({ refusal }) => refusal);
  const notSaved = refused.some(({ refusal }) => refusal === NOT_SAVED);
  const saving = entries.some((one) => !isStored(one) && !isOnlyHere(one));
  return { entries, refused, saving, notKept: entries.some(isOnlyHere), notSaved };
}

export const isStored = ({ id = 0 }: Entry): boolean => id > 0;

/** Gives up what only this tab has: it goes back into the forms. Gives the keys. */
export function giveBack(): readonly string[] {
  const keys = mine.filter(isOnlyHere).map(({ key }) => key);
  for (const key of keys) become(key, 'refused', NOT_SAVED);
  return keys;
}

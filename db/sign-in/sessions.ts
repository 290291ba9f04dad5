/** Sessions: one for each device on which a worker is signed in. */
import { and, desc, eq, gte, lt, ne, or, sql } from 'drizzle-orm';
import { statement } from '#db/book/open.ts';
import { type SignIns, type Since, sinceNow, stillSince } from './since.ts';
import { digestOf, drawToken, type Store } from './store.ts';
import { code, member, session } from './tables.ts';

const HOUR = 3_600_000;
/** A sale day is long, and nobody types a passphrase between two lots; a forgotten phone still ends by itself. */
export const LONGEST_MS = 18 * HOUR;
export const IDLE_MS = 6 * HOUR;
const SEEN_EVERY_MS = 60_000;

/** Begins a session and gives its token, which is stored nowhere. */
export function beginSession(
  { book, store: { db } }: SignIns,
  { workerId, device, now }: { readonly workerId: number; readonly device: string; readonly now: number },
): string {
  const token = drawToken();
  const runOut = or(lt(session.began, now - LONGEST_MS), lt(session.seen, now - IDLE_MS));
  db.delete(session).where(runOut).run();
  const begun = { tokenHash: digestOf(token), device: device.slice(0, 120), began: now, seen: now };
  db.insert(session)
    .values({ ...begun, workerId, ...sinceNow(book, workerId) })
    .run();
  return token;
}

/** Asked for every entry and every page of the staff. */
const sessions = statement(({ db }: Store) =>
  db
    .select()
    .from(session)
    .where(eq(session.tokenHash, sql.placeholder('tokenHash')))
    .prepare(),
);

/** Whose session this token is, or undefined where it is none, or one that has run out or was ended by the office. */
export function workerOfToken({ book, store }: SignIns, token: string, now: number): number | undefined {
  const tokenHash = digestOf(token);
  const row = sessions(store).get({ tokenHash });
  if (!row || row.began < now - LONGEST_MS || row.seen < now - IDLE_MS) return undefined;
  const since = stillSince(book, row.workerId, row);
  if (since === null) return undefined;
  if (since.line > row.line || row.seen < now - SEEN_EVERY_MS) noteSeen(store, tokenHash, now, since);
  return row.workerId;
}

/** The same for who only listens: a stream that is left open keeps nobody signed in. */
export function holds({ book, store }: SignIns, token: string, now: number): boolean {
  const row = sessions(store).get({ tokenHash: digestOf(token) });
  if (!row || row.began < now - LONGEST_MS || row.seen < now - IDLE_MS) return false;
  return stillSince(book, row.workerId, row) !== null;
}

/** On a full disk everybody stays signed in: that somebody was seen just now is worth less than that they can read. */
function noteSeen({ db }: Store, tokenHash: string, now: number, { line, hash, stations }: Since): void {
  try {
    db.update(session).set({ seen: now, line, hash, stations }).where(eq(session.tokenHash, tokenHash)).run();
  } catch {
    // The session then ends by idleness a little early, if the disk stays full for hours.
  }
}

export function endSession({ db }: Store, token: string): void {
  db.delete(session)
    .where(eq(session.tokenHash, digestOf(token)))
    .run();
}

/** Signs a worker out everywhere; codes that were made for them are void, too. Gives how many devices it was. */
export function endAllOf({ db }: Store, workerId: number): number {
  db.delete(code).where(eq(code.workerId, workerId)).run();
  return db.delete(session).where(eq(session.workerId, workerId)).run().changes;
}

/**
 * Signs a worker who has another passphrase out on every device but the one of this token, on which they changed it
 * themselves; codes that were made for them are void, too.
 */
export function endOthersOf({ book, store: { db } }: SignIns, workerId: number, token: string): void {
  const own = digestOf(token);
  db.delete(code).where(eq(code.workerId, workerId)).run();
  db.delete(session)
    .where(and(eq(session.workerId, workerId), ne(session.tokenHash, own)))
    .run();
  db.update(session).set(sinceNow(book, workerId)).where(eq(session.tokenHash, own)).run();
}

/** Takes away the sessions and codes that what was said of their workers has ended. */
export function dropEnded({ book, store: { db } }: SignIns): void {
  const hasEnded = (one: Since & { readonly workerId: number }) => stillSince(book, one.workerId, one) === null;
  for (const one of db.select().from(session).all().filter(hasEnded)) {
    db.delete(session).where(eq(session.tokenHash, one.tokenHash)).run();
  }
  for (const one of db.select().from(code).all().filter(hasEnded)) {
    db.delete(code).where(eq(code.codeHash, one.codeHash)).run();
  }
}

/** One device on which a worker is signed in. */
export interface Device {
  /** Names the session and lets nobody in: the beginning of its digest. */
  readonly id: string;
  readonly workerId: number;
  /** What the browser calls itself. */
  readonly device: string;
  /** Milliseconds since 1970, as `seen`, when it last asked, to the minute. */
  readonly began: number;
  readonly seen: number;
}

const ID_LENGTH = 16;

/** Every device whose sign-in still holds, the one used last first. */
export function devicesOf({ book, store: { db } }: SignIns, now: number): Device[] {
  const good = and(gte(session.began, now - LONGEST_MS), gte(session.seen, now - IDLE_MS));
  const rows = db.select().from(session).where(good).orderBy(desc(session.seen)).all();
  return rows
    .filter((row) => stillSince(book, row.workerId, row) !== null)
    .map(({ tokenHash, workerId, device, began, seen }) => ({
      ...{ id: tokenHash.slice(0, ID_LENGTH), workerId, device, began, seen },
    }));
}

/** Signs one device out, by its {@link Device} id; of this worker only, where one is named. Gives how many it was. */
export function endDevice({ db }: Store, id: string, workerId?: number): number {
  const whose = workerId === undefined ? undefined : eq(session.workerId, workerId);
  const same = eq(sql`substr(${session.tokenHash}, 1, ${ID_LENGTH})`, id);
  return db.delete(session).where(and(same, whose)).run().changes;
}

/** How long a member is signed in on a device, to read their own goods and nothing else. */
export const MEMBER_MS = 12 * HOUR;

/** Begins a member's session and gives its token, which is stored nowhere. `now` in milliseconds since 1970. */
export function beginMemberSession({ db }: Store, personId: number, now: number): string {
  const token = drawToken();
  db.delete(member)
    .where(lt(member.began, now - MEMBER_MS))
    .run();
  db.insert(member)
    .values({ tokenHash: digestOf(token), personId, began: now })
    .run();
  return token;
}

/** Whose token this is, or undefined where it is none, or one that has run out. */
export function memberOfToken({ db }: Store, token: string, now: number): number | undefined {
  const good = and(eq(member.tokenHash, digestOf(token)), gte(member.began, now - MEMBER_MS));
  return db.select({ personId: member.personId }).from(member).where(good).get()?.personId;
}

export function endMemberSession({ db }: Store, token: string): void {
  db.delete(member)
    .where(eq(member.tokenHash, digestOf(token)))
    .run();
}

/** Sessions: one for each device on which a worker is signed in. */
import { type SignIns, type Since, sinceNow, stillSince } from './since.ts';
import { digestOf, drawToken, type Store } from './store.ts';

const HOUR = 3_600_000;
/** A sale day is long, and nobody types a passphrase between two lots; a forgotten phone still ends by itself. */
export const LONGEST_MS = 18 * HOUR;
export const IDLE_MS = 6 * HOUR;
const SEEN_EVERY_MS = 60_000;

interface Begun {
  readonly workerId: number;
  readonly device: string;
  readonly now: number;
}

/** Begins a session and gives its token, which is nowhere kept. */
export function beginSession({ book, store: { sqlite } }: SignIns, { workerId, device, now }: Begun): string {
  const token = drawToken();
  const { line, hash, stations } = sinceNow(book, workerId);
  sqlite.prepare('DELETE FROM session WHERE began < ? OR seen < ?').run(now - LONGEST_MS, now - IDLE_MS);
  sqlite
    .prepare(
      `INSERT INTO session (token_hash, worker_id, device, began, seen, line, hash, stations)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(digestOf(token), workerId, device.slice(0, 120), now, now, line, hash, stations);
  return token;
}

interface Session extends Since {
  readonly worker_id: number;
  readonly began: number;
  readonly seen: number;
}

/** Whose session this token is, or undefined where it is none, or one that has run out or was ended by the office. */
export function workerOfToken({ book, store }: SignIns, token: string, now: number): number | undefined {
  const tokenHash = digestOf(token);
  const row = store.sqlite
    .prepare('SELECT worker_id, began, seen, line, hash, stations FROM session WHERE token_hash = ?')
    .get(tokenHash) as Session | undefined;
  if (!row || row.began < now - LONGEST_MS || row.seen < now - IDLE_MS) return undefined;
  const since = stillSince(book, row.worker_id, row);
  if (since === null) return undefined;
  if (since.line > row.line || row.seen < now - SEEN_EVERY_MS) noteSeen(store.sqlite, tokenHash, { ...since, now });
  return row.worker_id;
}

interface Seen extends Since {
  readonly now: number;
}

/** On a full disk everybody stays signed in: that somebody was seen just now is worth less than that they can read. */
function noteSeen(sqlite: Store['sqlite'], tokenHash: string, { line, hash, stations, now }: Seen): void {
  try {
    sqlite
      .prepare('UPDATE session SET seen = ?, line = ?, hash = ?, stations = ? WHERE token_hash = ?')
      .run(now, line, hash, stations, tokenHash);
  } catch {
    // The session then ends by idleness a little early, if the disk stays full for hours.
  }
}

export function endSession({ sqlite }: Store, token: string): void {
  sqlite.prepare('DELETE FROM session WHERE token_hash = ?').run(digestOf(token));
}

/** Signs a worker out everywhere; codes that were made for them are void, too. Gives how many devices it was. */
export function endAllOf({ sqlite }: Store, workerId: number): number {
  sqlite.prepare('DELETE FROM code WHERE worker_id = ?').run(workerId);
  return sqlite.prepare('DELETE FROM session WHERE worker_id = ?').run(workerId).changes;
}

/**
 * Signs a worker who has another passphrase out on every device but the one of this token, on which they changed it
 * themselves; codes that were made for them are void, too.
 */
export function endOthersOf({ book, store: { sqlite } }: SignIns, workerId: number, token: string): void {
  const { line, hash, stations } = sinceNow(book, workerId);
  const own = digestOf(token);
  sqlite.prepare('DELETE FROM code WHERE worker_id = ?').run(workerId);
  sqlite.prepare('DELETE FROM session WHERE worker_id = ? AND token_hash <> ?').run(workerId, own);
  sqlite
    .prepare('UPDATE session SET line = ?, hash = ?, stations = ? WHERE token_hash = ?')
    .run(line, hash, stations, own);
}

/** Takes away the sessions and codes that what was said of their workers has ended. */
export function dropEnded({ book, store: { sqlite } }: SignIns): void {
  for (const table of ['session', 'code']) {
    const rows = sqlite.prepare(`SELECT rowid, worker_id, line, hash, stations FROM ${table}`).all();
    const drop = sqlite.prepare(`DELETE FROM ${table} WHERE rowid = ?`);
    for (const { rowid, worker_id: id, ...since } of rows as (Since & { rowid: number; worker_id: number })[]) {
      if (stillSince(book, id, since) === null) drop.run(rowid);
    }
  }
}

/** On how many devices each worker is signed in now. */
export function devicesByWorker({ sqlite }: Store, now: number): ReadonlyMap<number, number> {
  const rows = sqlite
    .prepare('SELECT worker_id, count(*) FROM session WHERE began >= ? AND seen >= ? GROUP BY worker_id')
    .raw()
    .all(now - LONGEST_MS, now - IDLE_MS) as [number, number][];
  return new Map(rows);
}

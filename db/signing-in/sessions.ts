/** Sessions: one for each device on which a worker is signed in. */
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
export function beginSession({ sqlite }: Store, { workerId, device, now }: Begun): string {
  const token = drawToken();
  sqlite.prepare('DELETE FROM session WHERE began < ? OR seen < ?').run(now - LONGEST_MS, now - IDLE_MS);
  sqlite
    .prepare('INSERT INTO session (token_hash, worker_id, device, began, seen) VALUES (?, ?, ?, ?, ?)')
    .run(digestOf(token), workerId, device.slice(0, 120), now, now);
  return token;
}

/** Whose session this token is, or undefined where it is none, or one that has run out. */
export function workerOfToken({ sqlite }: Store, token: string, now: number): number | undefined {
  const hash = digestOf(token);
  const row = sqlite.prepare('SELECT worker_id, began, seen FROM session WHERE token_hash = ?').get(hash) as
    | { worker_id: number; began: number; seen: number }
    | undefined;
  if (!row || row.began < now - LONGEST_MS || row.seen < now - IDLE_MS) return undefined;
  if (row.seen < now - SEEN_EVERY_MS) {
    noteSeen(sqlite, hash, now);
  }
  return row.worker_id;
}

/** On a full disk everybody stays signed in: that somebody was seen just now is worth less than that they can read. */
function noteSeen(sqlite: Store['sqlite'], hash: string, now: number): void {
  try {
    sqlite.prepare('UPDATE session SET seen = ? WHERE token_hash = ?').run(now, hash);
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

/** Signs a worker out on every device but the one of this token; codes that were made for them are void, too. */
export function endOthersOf({ sqlite }: Store, workerId: number, token: string): void {
  sqlite.prepare('DELETE FROM code WHERE worker_id = ?').run(workerId);
  sqlite.prepare('DELETE FROM session WHERE worker_id = ? AND token_hash <> ?').run(workerId, digestOf(token));
}

/** On how many devices each worker is signed in now. */
export function devicesByWorker({ sqlite }: Store, now: number): ReadonlyMap<number, number> {
  const rows = sqlite
    .prepare('SELECT worker_id, count(*) FROM session WHERE began >= ? AND seen >= ? GROUP BY worker_id')
    .raw()
    .all(now - LONGEST_MS, now - IDLE_MS) as [number, number][];
  return new Map(rows);
}

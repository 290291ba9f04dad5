/** Members who look at their own goods: a device each, beside those of the workers, and good for nothing else. */
import { digestOf, drawToken, type Store } from './store.ts';

export const MEMBER_MS = 12 * 3_600_000;

/** Begins a member's look and gives its token, which is nowhere kept. `now` in milliseconds since 1970. */
export function beginMember({ sqlite }: Store, personId: number, now: number): string {
  const token = drawToken();
  sqlite.prepare('DELETE FROM member WHERE began < ?').run(now - MEMBER_MS);
  sqlite
    .prepare('INSERT INTO member (token_hash, person_id, began) VALUES (?, ?, ?)')
    .run(digestOf(token), personId, now);
  return token;
}

/** Whose token this is, or undefined where it is none, or one that has run out. */
export function personOfToken({ sqlite }: Store, token: string, now: number): number | undefined {
  const find = sqlite.prepare('SELECT person_id FROM member WHERE token_hash = ? AND began >= ?').pluck();
  return find.get(digestOf(token), now - MEMBER_MS) as number | undefined;
}

export function endMember({ sqlite }: Store, token: string): void {
  sqlite.prepare('DELETE FROM member WHERE token_hash = ?').run(digestOf(token));
}

/** Members who look at their own goods: a device each, beside those of the workers, and good for nothing else. */
import { and, eq, gte, lt } from 'drizzle-orm';
import { digestOf, drawToken, type Store } from './store.ts';
import { member } from './tables.ts';

export const MEMBER_MS = 12 * 3_600_000;

/** Begins a member's look and gives its token, which is nowhere kept. `now` in milliseconds since 1970. */
export function beginMember({ db }: Store, personId: number, now: number): string {
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
export function personOfToken({ db }: Store, token: string, now: number): number | undefined {
  const good = and(eq(member.tokenHash, digestOf(token)), gte(member.began, now - MEMBER_MS));
  return db.select({ personId: member.personId }).from(member).where(good).get()?.personId;
}

export function endMember({ db }: Store, token: string): void {
  db.delete(member)
    .where(eq(member.tokenHash, digestOf(token)))
    .run();
}

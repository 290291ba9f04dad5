import { and, eq, gt, isNull } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { memberCode as table } from '../schema/index.ts';
import { codeHash } from './member-code.ts';

const input = z.strictObject({ codeHash });

/** Uses up a one-time code. Wrong, used and late ones are not told apart: nobody learns which codes there were. */
export const memberEnter = defineCommand({
  name: 'member.enter',
  summary: 'Uses up a one-time code (as its SHA-256) and says whose it is.',
  logLabel: 'A member came in by code',
  stations: ['office'],
  input,
  run({ book, at, line }, { codeHash: hash }) {
    const good = and(eq(table.codeHash, hash), isNull(table.usedAt), gt(table.endsAt, at));
    const found = book.db.select({ id: table.id, personId: table.personId }).from(table).where(good).get();
    if (!found) {
      return refuse('not_allowed', 'This code is not good, or not any more: ask the office for a new one.', 'code');
    }
    book.db.update(table).set({ usedAt: at, line }).where(eq(table.id, found.id)).run();
    return accept({ personId: found.personId });
  },
});

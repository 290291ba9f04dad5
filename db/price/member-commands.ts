import { and, eq, gt, isNull } from 'drizzle-orm';
import * as z from 'zod';
import { defineCommand } from '#db/book/command.ts';
import { personById } from '#db/book/find.ts';
import { rowId } from '#db/book/inputs.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { memberCode as table } from '#db/schema/index.ts';
import { accept, refuse } from '#lib/result/result.ts';

const DAY_MINUTES = 24 * 60;

/** SHA-256 of a code, in hexadecimal: the book and its log never hold the code itself. */
const codeHash = z.string().regex(/^[0-9a-f]{64}$/, { error: 'Reload the page and make the code again.' });

/** Lets a person see once what their own goods brought. A code of theirs that was not used yet ends. */
export const memberCode = defineCommand({
  name: 'member.code',
  summary: 'Makes a one-time code (as its SHA-256) by which a person sees their own goods and sheets.',
  logLabel: 'Code for a member’s own prices made',
  stations: ['office'],
  input: z.strictObject({
    personId: rowId,
    codeHash,
    minutes: z
      .int({ error: 'Enter the minutes as a whole number.' })
      .min(10, { error: 'A code is good for at least 10 minutes.' })
      .max(DAY_MINUTES, { error: 'A code is good for a day at most: 1440 minutes.' }),
  }),
  run({ book, at, line }, { personId, codeHash: hash, minutes }) {
    const person = personById(book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: choose them again.', 'personId');
    if (book.db.select({ id: table.id }).from(table).where(eq(table.codeHash, hash)).get()) {
      return refuse('taken', 'Make the code again: this one was drawn before.', 'codeHash');
    }
    const waiting = and(eq(table.personId, personId), isNull(table.usedAt), gt(table.endsAt, at));
    book.db.update(table).set({ endsAt: at, line }).where(waiting).run();
    const endsAt = new Date(Date.parse(at) + minutes * 60_000).toISOString();
    addRow({ book, line }, table, { personId, codeHash: hash, endsAt });
    return accept({ personId, endsAt });
  },
});

/** Uses up a one-time code. Wrong, used and late ones are not told apart: nobody learns which codes there were. */
export const memberEnter = defineCommand({
  name: 'member.enter',
  summary: 'Uses up a one-time code (as its SHA-256) and says whose it is.',
  logLabel: 'A member came in by code',
  stations: ['office'],
  input: z.strictObject({ codeHash }),
  run({ book, at, line }, { codeHash: hash }) {
    const good = and(eq(table.codeHash, hash), isNull(table.usedAt), gt(table.endsAt, at));
    const found = book.db.select({ id: table.id, personId: table.personId }).from(table).where(good).get();
    if (!found) {
      return refuse('not_allowed', 'This code is not good, or not any more: ask the office for a new one.', 'code');
    }
    updateRow({ book, line }, table, found.id, { usedAt: at });
    return accept({ personId: found.personId });
  },
});

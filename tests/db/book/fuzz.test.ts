import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Station } from '#db/book/command.ts';
import { submitUntyped } from '#db/book/door.ts';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { allCommands } from '#db/commands.ts';
import { checkForeignKeys } from '#db/verify/chain.ts';
import { logView } from '#db/worker/log-view.ts';
import { REFUSAL_CODES } from '#lib/result/result.ts';
import { fullBook } from '#tests/support/book-file.ts';
import { AT, bobcatTag, rowsOf } from '#tests/support/hall.ts';
import { deepObject, inputOf, type Schema } from '#tests/support/hostile.ts';

/** FUZZ_INPUTS=100000 by hand; FUZZ_SEED gives a run again. */
const INPUTS = Number.parseInt(process.env.FUZZ_INPUTS ?? '2000', 10);
const SEED = Number.parseInt(process.env.FUZZ_SEED ?? '', 10) || Date.now() % 2 ** 31;

/** How the library of the schemas words what nobody has worded for people. */
const LIBRARY_WORDS = /Invalid (input|option|key|element)|Too (big|small)|\[object|must match pattern/;

const AMOUNTS = ['5.00', '7.25', '0.10', '0', '125.00', '-1.56'];
const DAYS = ['2026-02-28', '2025-01-18', ''];
const MARK = 'c'.repeat(64);

/** What stands in the book that is tried, by the names of the fields: so that many inputs come as far as the rules. */
const KNOWN: Readonly<Record<string, readonly unknown[]>> = {
  ...{
    saleId: [1, 1, 1, 2],
    lotId: [1, 2, 3, 4, 5],
    personId: [1, 2, 3, 4],
    sellerNo: [1, 2, 3],
    buyerNo: [10, 11, 12],
  },
  ...{ replacesId: [1, 2, 3, 4], bidId: [1, 2], checkId: [1], paymentId: [1, 2], entryId: [1, 2], workerId: [1] },
  ...{ lotNo: ['1', '2', '3', '4', '5A'], lots: ['1', '4', '1-3'], other: ['2', '4', '5.00'], before: ['1', '2'] },
  ...{
    goods: ['raccoon', 'castor', 'bobcat', 'mink'],
    count: ['3', '13', ''],
    weight: ['7.35', ''],
    pieces: ['2', '13'],
  },
  ...{
    price: AMOUNTS,
    amount: AMOUNTS,
    minimum: AMOUNTS,
    limit: AMOUNTS,
    denomination: ['20', '0.25'],
    checks: AMOUNTS,
  },
  ...{
    member: ['6', '3.75'],
    guest: ['10', '0'],
    held_on: DAYS,
    issuedOn: DAYS,
    memberUntil: DAYS,
    licenceExpires: DAYS,
  },
  ...{
    region: ['US-WY', ''],
    licenceRegion: ['US-WY', ''],
    takenIn: ['US-WY', ''],
    currency: ['USD'],
    tag: tagsLike(),
  },
  ...{ passphraseMark: [MARK], codeHash: ['a'.repeat(64), 'b'.repeat(64)], minutes: [10, 60], hammerAt: [AT] },
  ...{ closesAt: [AT], answerBy: [AT], season: ['2025-26', '1998-99'], replacesKey: ['key-1'], name: ['Zoë Łęcka'] },
};

function tagsLike(): string[] {
  return [1, 2, 3, 9].map((serial) => bobcatTag(serial).tag);
}

interface Tried {
  readonly name: string;
  readonly station: Station;
  readonly input: unknown;
}

const commands = allCommands().map(({ name, stations, input }) => ({
  ...{ name, stations },
  input: inputOf(z.toJSONSchema(input, { io: 'input', unrepresentable: 'any' }) as Schema, (field) =>
    Object.hasOwn(KNOWN, field) ? KNOWN[field] : undefined,
  ),
}));

const entry: fc.Arbitrary<Tried> = fc
  .constantFrom(...commands)
  .chain(({ name, stations, input }) =>
    fc.record({ name: fc.constant(name), station: fc.constantFrom(...stations), input }),
  );

/** What this test has found: each is tried again every time. */
const FOUND: [Tried][] = [
  [{ name: 'outcome.reopen', station: 'block', input: { lotId: 1, replacesKey: '\udc00x', reason: 'misheard' } }],
  [{ name: 'tags.set', station: 'intake', input: { lotId: 3, tags: [{ tag: '\ud800' }] } }],
  [{ name: 'sale.import', station: 'office', input: { sale: {} } }],
  [{ name: 'sale.import', station: 'office', input: { sale: { terms: deepObject() } } }],
];

const book = openBook(fullBook());
// Every entry is tried at the same book: what was accepted is taken back, and nothing waits for the disk.
book.sqlite.exec('BEGIN');
afterAll(() => {
  book.sqlite.exec('ROLLBACK');
  book.close();
});

const head = logHead(book);
const rows = rowsOf(book);
const changes = book.sqlite.prepare<[], number>('SELECT total_changes()').pluck();
const seen = { accepted: 0, refused: new Map<string, number>() };
let sent = 0;

/** Gives one input to the door, and says what came of it; what was written is taken back. */
function tried({ name, station, input }: Tried): void {
  sent += 1;
  const before = changes.get();
  book.sqlite.exec('SAVEPOINT one');
  const answer = submitUntyped(book, { command: name, station, input, worker: 'Ada', at: AT, key: `fuzz-${sent}` });
  const { seq } = logHead(book);
  if (answer.ok) {
    seen.accepted += 1;
    expect(seq).toBe(head.seq + 1);
    if (seen.accepted % 20 === 0) expect(checkForeignKeys(book.sqlite)).toMatchObject({ ok: true });
    // The office must be able to read what was taken.
    expect(logView(book, { personId: 1 }).workers).toContain('Ada');
    expect(logView(book, {}).lines[0]?.words).not.toBe('');
  } else {
    const all = [answer, ...(answer.also ?? [])];
    for (const { code, message } of all) {
      expect(REFUSAL_CODES).toContain(code);
      expect(message).toMatch(/^\S+ \S+ .*[.?!]$/su);
      expect(message).not.toMatch(LIBRARY_WORDS);
    }
    seen.refused.set(answer.code, (seen.refused.get(answer.code) ?? 0) + 1);
    expect(seq).toBe(head.seq);
    // Nothing that SQLite counts as a change is the surest sign of none; else the rows must be the same ones.
    if (changes.get() !== before) expect(rowsOf(book)).toEqual(rows);
  }
  book.sqlite.exec('ROLLBACK TO one; RELEASE one');
}

describe('the door', { timeout: 3_600_000 }, () => {
  it('takes or refuses whatever is sent, with a closed code and a sentence, and a refusal changes nothing', () => {
    fc.assert(fc.property(entry, tried), { numRuns: INPUTS, seed: SEED, examples: FOUND });
    const refused = Object.fromEntries([...seen.refused].sort(([, a], [, b]) => b - a));
    console.log(`${INPUTS} inputs (FUZZ_SEED=${SEED}): ${seen.accepted} accepted, refused: ${JSON.stringify(refused)}`);
    expect(rowsOf(book)).toEqual(rows);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    // Enough came through to the rules, and enough did not.
    expect(seen.accepted).toBeGreaterThan(INPUTS / 20);
    for (const code of ['malformed', 'unknown', 'wrong_stage', 'not_allowed', 'missing', 'taken'])
      expect(seen.refused.get(code) ?? 0, code).toBeGreaterThan(0);
  });
});

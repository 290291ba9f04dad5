import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '#db/book/open.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { assertUntilSeen } from '#tests/support/assert-until-seen.ts';
import { bobcatTag, GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

type Act<N extends CommandName = CommandName> = readonly [command: N, input: InputOf<N>];

const saleId = fc.constantFrom(1, 1, 2);
const lotId = fc.integer({ min: 1, max: 6 });
const lotNo = fc.constantFrom('1', '2', '3', '1A', '1B', '2A');
const tag = fc.record({
  // Five numbers for a dozen pieces: the tables meet on the same tag all the time.
  tag: fc.integer({ min: 1, max: 5 }).map((serial) => bobcatTag(serial).tag),
  condition: fc.constantFrom('intact', 'intact', 'intact', 'broken', 'replacement'),
});
const tags = fc.array(tag, { maxLength: 3 });
const bobcat = { goods: fc.constant('bobcat'), count: fc.constantFrom('1', '2', '3'), tags };
const PARTS = [
  [1, 1],
  [1, 2],
].map((parts) => parts.map((count) => ({ count: String(count) })));

const of = <N extends CommandName>(command: N, input: fc.Arbitrary<InputOf<N>>): fc.Arbitrary<Act<N>> =>
  input.map((said) => [command, said] as const);

/** What the check-in tables and the Block can do to a tagged lot, in any order. */
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 6, arbitrary: of('lot.add', fc.record({ saleId, sellerNo: fc.constant(1), ...bobcat })) },
  { weight: 5, arbitrary: of('tags.set', fc.record({ lotId, tags })) },
  { weight: 3, arbitrary: of('lot.amend', fc.record({ lotId, ...bobcat })) },
  {
    weight: 2,
    arbitrary: of(
      'lot.amend',
      fc.record({ lotId, goods: fc.constant('raccoon'), count: fc.constant('2'), tags: fc.constant([]) }),
    ),
  },
  { weight: 3, arbitrary: of('lot.divide', fc.record({ lotId, parts: fc.constantFrom(...PARTS) })) },
  { weight: 1, arbitrary: of('lot.move', fc.record({ lotId, sellerNo: fc.constantFrom(1, 2) })) },
  { weight: 1, arbitrary: of('lot.withdraw', fc.record({ lotId, reason: fc.constant('goes home') })) },
  { weight: 5, arbitrary: of('outcome.record', fc.record({ saleId, lotNo, ...sold() })) },
  { weight: 3, arbitrary: of('outcome.record', fc.record({ saleId, lotNo, kind: fc.constant('passed') })) },
  {
    weight: 3,
    arbitrary: of('outcome.correct', fc.record({ lotId, reason: fc.constant('misheard'), ...sold() })),
  },
  { weight: 12, arbitrary: onCalled() },
  { weight: 2, arbitrary: of('outcome.reopen', fc.record({ lotId, reason: fc.constant('misheard') })) },
);

/** A tag of a called lot that breaks, is replaced, or turns out whole; every other time one that is surely there. */
function onCalled(): fc.Arbitrary<Act> {
  const replacement = fc.integer({ min: 1, max: 4 }).map((serial) => `US-CITES FWS-REPL 00000${serial}`);
  const anyTag = tag.map((one) => one.tag);
  const where = fc.oneof(
    fc.constantFrom(...[1, 2].map((no) => ({ saleId: 1, lotNo: String(no), tag: bobcatTag(no).tag }))),
    fc.record({ saleId, lotNo, tag: fc.oneof(anyTag, replacement) }),
  );
  const said = fc.record({
    found: fc.constantFrom('broken', 'replaced', 'replaced', 'whole'),
    replacement: fc.oneof(replacement, anyTag),
    reason: fc.constant('cut'),
  });
  return of(
    'tag.mend',
    fc.tuple(where, said).map(([place, found]) => ({ ...place, ...found })),
  );
}

function sold() {
  return { kind: fc.constant('sold'), price: fc.constant('300.00'), buyerNo: fc.constant(10) };
}

/** Each asks for what must not be there. */
const LAWS: Readonly<Record<string, string>> = {
  'a tag on two pieces': 'SELECT tag FROM tag WHERE live = 1 GROUP BY tag HAVING count(*) > 1',
  'a tag twice in one sale': 'SELECT 1 FROM tag JOIN lot ON lot.id = lot_id GROUP BY sale_id, tag HAVING count(*) > 1',
  'a sold lot with fewer good tags than pieces': `SELECT lot.id FROM outcome
    JOIN lot ON lot.id = outcome.lot_id JOIN goods ON goods.id = lot.goods_id
    WHERE kind = 'sold' AND export_tag
      AND outcome.id NOT IN (SELECT replaces_id FROM outcome WHERE replaces_id IS NOT NULL)
      AND coalesce(count, 1) > (SELECT count(DISTINCT tag) FROM tag WHERE lot_id = lot.id AND condition <> 'broken')`,
  'a replaced tag whose replacement is not on its lot': `SELECT tag FROM tag broken WHERE condition = 'broken'
    AND broke_at <> '' AND (SELECT count(*) FROM tag WHERE lot_id = broken.lot_id AND replaces = broken.tag) <> 1`,
  'a tag on goods that take none': `SELECT tag FROM tag JOIN lot ON lot.id = lot_id JOIN goods ON goods.id = goods_id
    WHERE NOT export_tag`,
};

const brokenLaws = ({ sqlite }: Book) =>
  Object.keys(LAWS).filter((law) => sqlite.prepare(LAWS[law] ?? '').all().length > 0);

/** Two sales at once, so that a piece goes home from one and comes back at the other. */
function twoSales(): Hall {
  const hall = openHall();
  const { must } = hall;
  must('seller.register', { saleId: 1, sellerNo: 2, partners: [{ personId: 2 }] });
  const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27', season: '2026-27' };
  const next = must('sale.plan', { sale, goods: GOODS }).saleId;
  must('sale.stage', { saleId: next, stage: 'intake', reason: '' });
  must('seller.register', { saleId: next, sellerNo: 1, partners: [{ personId: 1 }] });
  must('buyer.register', { saleId: next, buyerNo: 10, personId: 2, cleared: true });
  must('sale.stage', { saleId: next, stage: 'selling', reason: '' });
  // Something sold, something passed and something on hold from the first act on.
  for (const serials of [[1], [2], []]) {
    const said = { goods: 'bobcat', count: '1', tags: serials.map(bobcatTag) };
    must('lot.add', { saleId: 1, sellerNo: 1, ...said });
  }
  must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '300.00', buyerNo: 10 });
  must('outcome.record', { saleId: 1, lotNo: '2', kind: 'passed' });
  return hall;
}

/** What stands for a lot by then, as the screen would name it. */
function newestOf({ sqlite }: Book, lotId: number): number {
  return sqlite.prepare<[number], number>('SELECT max(id) FROM outcome WHERE lot_id = ?').pluck().get(lotId) ?? 1;
}

/** Acts that are always refused would show nothing, nor would a hall in which nothing is sold or comes back. */
const WANTED = [
  ...['lot.add', 'lot.amend', 'lot.divide', 'lot.move', 'lot.withdraw', 'outcome.correct', 'outcome.record'],
  ...['outcome.reopen', 'tag.mend', 'tags.set', 'a lot is sold', 'a piece comes back'],
];

const RUNS = Number.parseInt(process.env.PELTRY_TAG_LAW_RUNS ?? '15', 10);

describe('export tags under any acts of several tables', () => {
  it('are never on two pieces, and no sold lot has fewer good tags than pieces, after every single step', () => {
    const seen = new Set<string>();
    assertUntilSeen(
      fc.property(fc.array(act, { minLength: 60, maxLength: 60 }), (acts) => {
        const { book, give } = twoSales();
        for (const [command, input] of acts) {
          const station = command.startsWith('outcome') ? 'block' : 'intake';
          const standing = station === 'block' && 'lotId' in input ? { replacesId: newestOf(book, input.lotId) } : {};
          if (!give(command, { ...input, ...standing }, { station }).ok) continue;
          seen.add(command);
          expect(brokenLaws(book)).toEqual([]);
        }
        const some = (from: string) => book.sqlite.prepare(`SELECT 1 FROM ${from} LIMIT 1`).get() !== undefined;
        if (some("outcome WHERE kind = 'sold'")) seen.add('a lot is sold');
        if (some('tag WHERE came_back_from_id IS NOT NULL')) seen.add('a piece comes back');
        book.close();
      }),
      { numRuns: RUNS, seen, wanted: WANTED },
    );
    expect([...seen].sort()).toEqual([...WANTED].sort());
  });
});

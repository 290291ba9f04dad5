import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { areClosed, closingOf } from '#lib/outcome/bid.ts';
import { END_WORDS } from '#lib/outcome/written.ts';
import { at, writtenHall } from '#tests/db/support/written-hall.ts';
import { assertUntilSeen } from '#tests/support/assert-until-seen.ts';

const RUNS = Number.parseInt(process.env.PELTRY_WRITTEN_RUNS ?? '15', 10);

const some = fc.record({
  act: fc.constantFrom(
    'leave',
    'leave',
    'leave',
    'leave',
    'retract',
    'move',
    'close',
    'award',
    'award',
    'accept',
    'accept',
    'keep',
    'withdraw',
  ),
  lotNo: fc.constantFrom('1', '2', '3'),
  // Ada, whose lots 1 and 2 are, is buyer 12; 13 is not cleared.
  buyerNo: fc.constantFrom(10, 11, 12, 13),
  // Few prices and times, so that ties and the minimum of 7.00 are common.
  price: fc.constantFrom('6.00', '6.00', '7.00', '8.00'),
  handedIn: fc.constantFrom(undefined, '09:00', '09:01', '09:30'),
  bidId: fc.integer({ min: 1, max: 8 }),
  answers: fc.boolean(),
  reason: fc.constantFrom('', 'misread'),
});
type Some = typeof some extends fc.Arbitrary<infer T> ? T : never;

/** Works a history, a minute an act from 9:00 on; the clock closes at 9:25 unless somebody does it before. */
function worked(acts: readonly Some[]) {
  const hall = writtenHall();
  const { saleId, must, when, view, lot } = hall;
  lot(1, '2');
  lot(1, '3', '7.00');
  lot(2, '1', '7.00');
  must('sale.stage', { saleId, stage: 'selling', reason: '' });
  must('bids.closing', { saleId, closesAt: at('09:25'), answerBy: at('10:30') });
  const early: string[] = [];
  for (const [minute, { act, lotNo, buyerNo, price, handedIn, bidId, answers, reason }] of acts.entries()) {
    const now = `09:${String(minute).padStart(2, '0')}`;
    const sale = saleById(hall.book, saleId);
    const times = { closeAt: sale?.bidsCloseAt ?? null, closedAt: sale?.bidsClosedAt ?? null };
    const awardedAt = sale?.bidsAwardedAt ?? null;
    const questions = act === 'award' ? view(now).questions : [];
    const answered = answers ? questions.map((one) => ({ bidId: one.bidId, question: one.question })) : [];
    const done = {
      leave: () =>
        when(now, 'bid.leave', {
          ...{ saleId, lotNo, buyerNo, kind: 'written', price },
          ...(handedIn && { handedInAt: at(handedIn) }),
        }),
      retract: () => when(now, 'bid.retract', { bidId, reason }),
      move: () => when(now, 'bid.move', { bidId, lotNo, reason }),
      close: () => when(now, 'bids.close', { saleId }),
      award: () => when(now, 'bids.award', { saleId, answered }),
      accept: () => {
        const waiting = view(now).waiting.find((one) => one.lotNo === lotNo);
        const said = { price: waiting?.price ?? price, buyerNo: waiting?.buyerNo ?? buyerNo };
        const yes = answers ? (['seller_buys', 'buyer_not_cleared'] as const) : [];
        return when(now, 'outcome.record', {
          saleId,
          lotNo,
          kind: 'sold',
          ...said,
          answered: ['below_minimum', ...yes],
        });
      },
      keep: () => when(now, 'outcome.record', { saleId, lotNo, kind: 'passed' }),
      withdraw: () => when(now, 'outcome.record', { saleId, lotNo, kind: 'withdrawn' }),
    }[act]();
    if (!done.ok) continue;
    if (act === 'award' && !areClosed({ at: at(now), awardedAt, ...times })) early.push(`${now} award`);
    if ((act === 'accept' || act === 'keep') && awardedAt === null) early.push(`${now} ${act}`);
    if (act === 'award' && answered.length < questions.length) early.push(`${now} unanswered`);
  }
  return { ...hall, early };
}

interface Row {
  id: number;
  lot_id: number;
  buyer_id: number;
  price_cents: number;
  received_at: string;
  retracts_id: number | null;
  moved: number;
}

/** By brute force from the rows alone: the bids on a lot that count. */
function countingOn(rows: readonly Row[], lotId: number, closing: { at: string | null; byHand: boolean }): Row[] {
  const late = ({ received_at }: Row) => {
    if (closing.at === null) return false;
    const after = Date.parse(received_at) - Date.parse(closing.at);
    return closing.byHand ? after > 0 : after >= 0;
  };
  return rows.filter((bid) => {
    if (bid.lot_id !== lotId || bid.retracts_id !== null || late(bid)) return false;
    return !rows.some((other) => {
      if (other.retracts_id === null) return false;
      if (other.retracts_id === bid.id) return true;
      const sameBidder = other.lot_id === lotId && other.buyer_id === bid.buyer_id;
      return sameBidder && other.moved === 0 && other.retracts_id > bid.id;
    });
  });
}

/** Each history may go another way; together they have to come to all of these. */
const WANTED = ['awarded', 'accepted', 'asked', ...Object.values(END_WORDS)];
const seen = new Set<string>();

describe('every history of a written sale', () => {
  it('awards after the closing only, answers every question, and gives a lot to the bid that no other beats', () => {
    assertUntilSeen(
      fc.property(fc.array(some, { minLength: 30, maxLength: 55 }), (acts) => {
        const { book, saleId, early, view } = worked(acts);
        expect(early).toEqual([]);
        const all = <T>(sql: string) => book.sqlite.prepare(sql).all(saleId) as T[];
        const rows = all<Row>(
          'SELECT bid.* FROM bid JOIN lot ON lot.id = bid.lot_id WHERE lot.sale_id = ? ORDER BY bid.id',
        );
        const sale = saleById(book, saleId);
        const times = { closeAt: sale?.bidsCloseAt ?? null, closedAt: sale?.bidsClosedAt ?? null };
        const closing = { at: closingOf(times), byHand: times.closedAt !== null };
        const sold = all<{
          lot_id: number;
          buyer_id: number;
          price_cents: number;
          remarks: string;
          awarded: number;
          no: number;
        }>(
          `SELECT o.*, buyer.buyer_no AS no FROM outcome o JOIN lot ON lot.id = o.lot_id JOIN buyer ON buyer.id = o.buyer_id
           WHERE lot.sale_id = ? AND o.kind = 'sold'`,
        );
        const ownLots = new Set(
          all<{ id: number }>('SELECT id FROM lot WHERE sale_id = ? AND lot_number < 3').map(({ id }) => id),
        );
        for (const one of sold) {
          if (one.no === 13) expect(one.remarks).toContain('buyer_not_cleared');
          if (one.no === 12 && ownLots.has(one.lot_id)) expect(one.remarks).toContain('seller_buys');
          if (one.remarks.includes('buyer')) seen.add('asked');
          seen.add(one.awarded ? 'awarded' : 'accepted');
          const counting = countingOn(rows, one.lot_id, closing);
          const won = counting.filter(
            (bid) =>
              !counting.some((other) => {
                const earlier = Date.parse(other.received_at) - Date.parse(bid.received_at) || other.id - bid.id;
                return other.price_cents > bid.price_cents || (other.price_cents === bid.price_cents && earlier < 0);
              }),
          );
          expect(won).toMatchObject([{ buyer_id: one.buyer_id, price_cents: one.price_cents }]);
        }
        endsAreWhole(view('11:00'), rows);
      }),
      { numRuns: RUNS, seen, wanted: WANTED },
    );
    expect([...seen]).toEqual(expect.arrayContaining(WANTED));
  });
});

/** Every bid has one end of the five once its lot is decided, and every sold lot has one winner. */
function endsAreWhole(
  { phase, ended, called }: ReturnType<ReturnType<typeof writtenHall>['view']>,
  rows: readonly Row[],
) {
  if (phase === 'taking' || phase === 'closed') return expect(ended).toEqual([]);
  const bids = rows.filter(({ retracts_id }) => retracts_id === null).length;
  const moves = rows.filter(({ retracts_id, moved }) => retracts_id !== null && moved === 1).length;
  expect(ended).toHaveLength(bids - moves);
  for (const { end } of ended) seen.add(end);
  const words: readonly string[] = Object.values(END_WORDS);
  for (const { lotNo, end } of ended) {
    if (end === '') expect(called.some((one) => one.lotNo === lotNo)).toBe(false);
    else expect(words).toContain(end);
  }
  for (const { lotNo, kind } of called) {
    const winners = ended.filter((one) => one.lotNo === lotNo && one.end === 'won');
    expect(winners).toHaveLength(kind === 'sold' ? 1 : 0);
  }
}

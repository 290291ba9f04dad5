import { describe, expect, it } from 'vitest';
import type { Stage } from '#lib/sale/facts.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { GOODS, type Hall, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

/** A sale of its own that was brought to a stage. */
function saleAt(hall: Hall, stage: Stage): number {
  const sale = { ...SALE, name: `A sale that is ${stage}` };
  const saleId = hall.must('sale.plan', { sale, goods: GOODS }).saleId;
  for (const next of STAGES.slice(1, STAGES.indexOf(stage) + 1))
    hall.must('sale.stage', { saleId, stage: next, reason: '' });
  return saleId;
}

const forward: readonly (readonly [Stage, Stage])[] = [
  ['planned', 'intake'],
  ['intake', 'selling'],
  ['selling', 'settling'],
  ['settling', 'closed'],
];
const back: readonly (readonly [Stage, Stage])[] = [
  ['selling', 'intake'],
  ['settling', 'selling'],
  ['closed', 'settling'],
];

describe('sale.stage', () => {
  it.each(forward)('goes on from %s to %s', (from, stage) => {
    const hall = openHall();
    hall.must('sale.stage', { saleId: saleAt(hall, from), stage, reason: '' });
    expect(rowsOf(hall.book).sale?.at(-1)).toMatchObject({ stage });
  });

  it.each(back)('goes back from %s to %s with a reason only', (from, stage) => {
    const hall = openHall();
    const saleId = saleAt(hall, from);
    hall.refuses('sale.stage', { saleId, stage, reason: ' ' }, { code: 'missing', field: 'reason' });
    hall.must('sale.stage', { saleId, stage, reason: 'a late lot' });
  });

  const allowed = new Set([...forward, ...back].map(([from, to]) => `${from} ${to}`));
  const others = STAGES.flatMap((from) => STAGES.map((to) => [from, to] as const)).filter(
    ([from, to]) => !allowed.has(`${from} ${to}`),
  );
  it.each(others)('refuses from %s to %s', (from, stage) => {
    const hall = openHall();
    const code = from === stage ? 'already' : 'wrong_stage';
    hall.refuses('sale.stage', { saleId: saleAt(hall, from), stage, reason: 'so' }, { code, field: 'stage' });
  });

  it('ends the bidding with lots left only where their number is typed, and without one once none is left', () => {
    const { saleId, must, refuses, refusesUntyped } = openHall();
    const end = { saleId, stage: 'settling', reason: '' } as const;
    for (const count of ['3', '4', '5']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
    const told = refuses('sale.stage', end, { code: 'needs_answer', field: 'left' });
    expect(told).toBe('3 lots have not been called. Type 3 to end the bidding anyway, or go on selling.');
    refuses('sale.stage', { ...end, left: 2 }, { code: 'conflict', field: 'left' });
    refusesUntyped('sale.stage', { ...end, left: 'three' }, { code: 'malformed', field: 'left' });
    must('sale.stage', { ...end, left: 3 });
    must('sale.stage', { saleId, stage: 'selling', reason: 'a buyer came' });
    // A lot that was opened again is to be called once more.
    const { lotId, outcomeId } = must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
    must('outcome.reopen', { lotId, replacesId: outcomeId, reason: 'a bid came in' });
    refuses('sale.stage', { ...end, left: 2 }, { code: 'conflict', field: 'left' });
    for (const lotNo of ['1', '2', '3']) must('outcome.record', { saleId, lotNo, kind: 'passed' });
    must('sale.stage', end);
  });

  it('refuses a sale that is not there, and a stage that is none', () => {
    const { refuses, refusesUntyped } = openHall();
    refuses('sale.stage', { saleId: 9, stage: 'closed', reason: '' }, { code: 'unknown', field: 'saleId' });
    refusesUntyped('sale.stage', { saleId: 1, stage: 'over', reason: '' }, { code: 'malformed', field: 'stage' });
  });
});

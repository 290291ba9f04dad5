import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { decideIssue, decideIssueAll, decideIssueStage, type IssueContext } from '#lib/settlement/decide-issue.ts';

const ready: IssueContext = { sellerNo: 7, issuedNumber: null, lots: 2, waiting: [] };
const waiting: IssueContext = { ...ready, sellerNo: 8, waiting: [lotNo('12'), lotNo('12A')] };
const issued: IssueContext = { ...ready, sellerNo: 9, issuedNumber: 3 };

describe('the stage', () => {
  it.each(STAGES)('%s', (stage) => {
    expect(decideIssueStage(stage).ok).toBe(stage === 'selling' || stage === 'settling');
    if (!decideIssueStage(stage).ok) expect(decideIssue(stage, ready)).toMatchObject({ code: 'wrong_stage' });
  });
});

describe('one sheet', () => {
  it('is refused where there is one, and says which', () => {
    const decided = decideIssue('settling', issued);
    expect(decided).toMatchObject({ ok: false, code: 'already', field: 'sellerNo' });
    expect(decided).toHaveProperty('message', expect.stringContaining('settlement sheet 3'));
  });

  it('waits for its lots while the sale runs, and is asked about once it settles', () => {
    const decided = decideIssue('selling', waiting, ['lots_not_called']);
    expect(decided).toMatchObject({ ok: false, code: 'wrong_stage', field: 'sellerNo' });
    expect(decided).toHaveProperty('message', expect.stringContaining('Lots 12 and 12A'));
    const asked = decideIssue('settling', waiting);
    expect(asked).toMatchObject({ ok: false, code: 'needs_answer', field: 'lots_not_called' });
    expect(asked).toHaveProperty('message', expect.stringContaining('2 lots of seller number 8 have not been called'));
    expect(decideIssue('settling', waiting, ['lots_not_called']).ok).toBe(true);
  });
});

describe('all sheets', () => {
  it('are those that have none and wait for nothing', () => {
    const all = [ready, waiting, issued];
    for (const stage of ['selling', 'settling'] as const) {
      expect(decideIssueAll(stage, all, 1)).toEqual({ ok: true, value: { ready: [ready], skipped: [waiting] } });
    }
  });

  it.each([
    [null, 'needs_answer'],
    [2, 'conflict'],
  ] as const)('are refused where %s of them were seen and there is one', (seen, code) => {
    const decided = decideIssueAll('settling', [ready, waiting], seen);
    expect(decided).toMatchObject({ ok: false, code, field: 'seen' });
    expect(decided).toHaveProperty('message', expect.stringContaining('1 sheet'));
  });

  it('leave somebody without lots for later while the sale runs: they may still bring some', () => {
    const newcomer: IssueContext = { ...ready, sellerNo: 10, lots: 0 };
    const one = (scene: IssueContext) => ({ ok: true, value: { ready: [scene], skipped: [] } });
    expect(decideIssueAll('selling', [ready, newcomer], 1)).toEqual(one(ready));
    expect(decideIssueAll('selling', [newcomer], 1)).toMatchObject({ ok: false, code: 'wrong_stage' });
    expect(decideIssueAll('settling', [newcomer], 1)).toEqual(one(newcomer));
  });

  it.each([
    ['settling', [], 'already'],
    ['settling', [issued], 'already'],
    ['selling', [waiting], 'wrong_stage'],
    ['settling', [waiting], 'wrong_stage'],
    ['closed', [ready], 'wrong_stage'],
    ['intake', [ready], 'wrong_stage'],
  ] as const)('in %s, %j is refused', (stage, all, code) => {
    expect(decideIssueAll(stage, all, 1)).toMatchObject({ ok: false, code });
  });
});

import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot-number.ts';
import { decideIssue, decideIssueAll, decideIssueStage, type IssueScene } from '#lib/sheet/decide-issue.ts';
import { STAGES } from '#lib/stage.ts';

const ready: IssueScene = { sellerNo: 7, issuedNumber: null, lots: 2, waiting: [] };
const waiting: IssueScene = { ...ready, sellerNo: 8, waiting: [lotNo('12'), lotNo('12A')] };
const issued: IssueScene = { ...ready, sellerNo: 9, issuedNumber: 3 };

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

  it('waits for its lots while the sale runs, and for none of them once it settles', () => {
    const decided = decideIssue('selling', waiting);
    expect(decided).toMatchObject({ ok: false, code: 'wrong_stage', field: 'sellerNo' });
    expect(decided).toHaveProperty('message', expect.stringContaining('Lots 12 and 12A'));
    expect(decideIssue('settling', waiting).ok).toBe(true);
  });
});

describe('all sheets', () => {
  it('are those that have none and wait for nothing', () => {
    const all = [ready, waiting, issued];
    expect(decideIssueAll('selling', all)).toEqual({ ok: true, value: [ready] });
    expect(decideIssueAll('settling', all)).toEqual({ ok: true, value: [ready, waiting] });
  });

  it('leave somebody without lots for later while the sale runs: they may still bring some', () => {
    const newcomer: IssueScene = { ...ready, sellerNo: 10, lots: 0 };
    expect(decideIssueAll('selling', [ready, newcomer])).toEqual({ ok: true, value: [ready] });
    expect(decideIssueAll('selling', [newcomer])).toMatchObject({ ok: false, code: 'wrong_stage' });
    expect(decideIssueAll('settling', [newcomer])).toEqual({ ok: true, value: [newcomer] });
  });

  it.each([
    ['settling', [], 'already'],
    ['settling', [issued], 'already'],
    ['selling', [waiting], 'wrong_stage'],
    ['closed', [ready], 'wrong_stage'],
    ['intake', [ready], 'wrong_stage'],
  ] as const)('in %s, %j is refused', (stage, all, code) => {
    expect(decideIssueAll(stage, all)).toMatchObject({ ok: false, code });
  });
});

import { describe, expect, it } from 'vitest';
import { decideReopen } from '#lib/outcome/decide-outcome.ts';
import { STAGES } from '#lib/sale/stage.ts';

describe('reopening a lot', () => {
  it.each(STAGES)('is for the stage selling, and refused otherwise: %s', (stage) => {
    const decided = decideReopen({ lotNo: '12', stage, standing: 'passed' });
    if (stage === 'selling') expect(decided).toEqual({ ok: true, value: null });
    else expect(decided).toMatchObject({ code: 'wrong_stage', field: 'lotNo' });
  });

  it('needs an outcome that stands', () => {
    expect(decideReopen({ lotNo: '12', stage: 'selling', standing: null })).toMatchObject({ code: 'unknown' });
  });
});

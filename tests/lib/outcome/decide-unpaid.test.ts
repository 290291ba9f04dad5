import { describe, expect, it } from 'vitest';
import { decideUnpaid, FATES, type UnpaidContext } from '#lib/outcome/unpaid.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { lot, money } from '#tests/support/facts.ts';

const { lotNo } = lot('12');
const one = { lotNo, theirs: true, handed: false };
const scene = (over: Partial<UnpaidContext> = {}): UnpaidContext => ({
  ...{ stage: 'selling', buyerNo: 10, owingCents: money('0.01'), lots: [one] },
  ...over,
});

describe('decideUnpaid', () => {
  it.each(FATES)('lets the fur of a lot that is owed for and still here be %s', (fate) => {
    expect(decideUnpaid(scene(), fate)).toEqual({ ok: true, value: null });
  });

  it.each([
    ['a lot of another buyer', { lots: [one, { ...one, theirs: false }] }, 'conflict', 'lots'],
    ['a lot that has left the hall', { lots: [{ ...one, handed: true }] }, 'not_allowed', 'lots'],
    ['no lot at all', { lots: [] }, 'missing', 'lots'],
    ['a buyer who owes nothing', { owingCents: money('0.00') }, 'not_allowed', 'buyerNo'],
  ] as const)('refuses %s', (_, over, code, field) => {
    expect(decideUnpaid(scene(over), 'seller')).toMatchObject({ ok: false, code, field });
  });

  it('says of a lot that was handed over that it stays sold, and whom to ask', () => {
    const decided = decideUnpaid(scene({ lots: [{ ...one, handed: true }] }), 'seller');
    expect(decided).toMatchObject({ message: expect.stringMatching(/Lot 12 has left the hall.*ask the treasurer/) });
  });

  it.each(STAGES)('goes by the stage %s', (stage) => {
    const after = stage === 'selling' || stage === 'settling';
    expect(decideUnpaid(scene({ stage }), 'association').ok).toBe(after);
    expect(decideUnpaid(scene({ stage }), 'again').ok).toBe(stage === 'selling');
  });
});

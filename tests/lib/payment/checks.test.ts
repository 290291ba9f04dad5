import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents, sumCents } from '#lib/money/money.ts';
import { type CheckSeller, type ChecksContext, decideChecks, decideChecksOf, LAST_CHECK } from '#lib/payment/checks.ts';
import type { PaymentsSaid } from '#lib/payment/said-last.ts';

const account = (personId: string, owing: number) => ({
  ...{ personId, shareCents: cents(owing), paidCents: cents(0), owingCents: cents(owing) },
});
const seller = (sellerNo: number, owing: readonly number[], over: Partial<CheckSeller> = {}): CheckSeller => ({
  ...{ sellerNo, sheetNumber: sellerNo, changed: false, waitsFor: [], owesAsBuyer: [] },
  accounts: owing.map((amount, at) => account(`P${at + 1}`, amount)),
  ...over,
});
const pile = (over: Partial<ChecksContext> = {}): ChecksContext => ({
  ...{ stage: 'settling', firstNumber: 1041, taken: new Set<number>() },
  ...over,
});

describe('the checks of one seller number', () => {
  it('are one for each partner who has something to get', () => {
    expect(decideChecksOf(pile(), seller(3, [5917, 0, -200, 2958]))).toEqual({
      ok: true,
      value: [
        { number: 1041, sellerNo: 3, personId: 'P1', amountCents: 5917 },
        { number: 1042, sellerNo: 3, personId: 'P4', amountCents: 2958 },
      ],
    });
  });

  it.each([
    ['paid, or owing', seller(3, [0, -1]), 'already', 'nothing to get'],
    ['without a sheet', seller(3, [1], { sheetNumber: null }), 'wrong_stage', 'no sheet yet'],
    ['with a sheet that is no longer right', seller(3, [1], { changed: true }), 'wrong_stage', 'since sheet 3'],
    ['waiting for a buyer', seller(3, [1], { waitsFor: [10] }), 'wrong_stage', 'money of buyer 10:'],
    ['waiting for two', seller(3, [1], { waitsFor: [10, 11] }), 'wrong_stage', 'money of buyers 10 and 11:'],
  ])('are none where it is %s', (_, one, code, words) => {
    const refused = decideChecksOf(pile(), one);
    expect(refused).toMatchObject({ ok: false, code, message: expect.stringContaining(words) });
  });

  it('are none in a sale that is closed', () => {
    const closed = pile({ stage: 'closed' });
    expect(decideChecksOf(closed, seller(3, [1]))).toMatchObject({ code: 'wrong_stage', field: 'saleId' });
    expect(decideChecks(closed, [seller(3, [1])], 1)).toMatchObject({ code: 'wrong_stage', field: 'saleId' });
  });

  it('lie in order: a number that was used stops the pile, wherever it comes', () => {
    const three = seller(3, [1, 2, 3]);
    for (const used of [1041, 1042, 1043]) {
      expect(decideChecksOf(pile({ taken: new Set([used]) }), three)).toMatchObject({
        code: 'taken',
        message: expect.stringContaining(`Check ${used} is`),
      });
    }
    expect(decideChecksOf(pile({ taken: new Set([1040, 1044]) }), three).ok).toBe(true);
  });

  it('end with the last number that a check may have', () => {
    const three = seller(3, [1, 2, 3]);
    expect(decideChecksOf(pile({ firstNumber: LAST_CHECK - 2 }), three).ok).toBe(true);
    expect(decideChecksOf(pile({ firstNumber: LAST_CHECK - 1 }), three)).toMatchObject({ code: 'too_large' });
  });
});

describe('the slower of two who write the same check', () => {
  const scene = { currency: 'USD', at: '2026-02-28T18:30:00Z', timeZone: 'America/Denver', nameOf: () => 'Ada Birch' };
  const paid = {
    direction: 'out',
    personId: 'P1',
    amountCents: cents(45_776),
    paidAt: '2026-02-28T18:16:00Z',
  } as const;
  const refused = (payments: PaymentsSaid['payments'], owing = [0]) => {
    const decided = decideChecksOf(pile({ firstNumber: 502, said: { ...scene, payments } }), seller(2, owing));
    return !decided.ok && decided.message;
  };

  it.each([
    [
      'a check',
      [{ ...paid, method: 'check', reference: 'Check 501' }],
      'check 501 over $457.76 was written at 11:16 AM',
    ],
    ['a check without a number', [{ ...paid, method: 'check', reference: '' }], 'a check over $457.76 was written'],
    ['cash', [{ ...paid, method: 'cash', reference: '' }], '$457.76 was paid at 11:16 AM'],
  ] as const)('is told of %s, and that theirs is not written', (_, payments, words) => {
    expect(refused(payments)).toContain(`Ada Birch is already paid: ${words}`);
    expect(refused(payments)).toMatch(/ Your check 502 is not written\.$/);
  });

  it('is told of the number where it has several partners, and of nothing where nobody was paid', () => {
    const both = refused([{ ...paid, method: 'cash' }], [0, 0]);
    expect(both).toMatch(/^Seller number 2 is already paid: /);
    expect(refused([])).toBe('Seller number 2 has nothing to get. Your check 502 is not written.');
  });
});

describe('the checks of all seller numbers', () => {
  const ready = [seller(1, [8875]), seller(2, [0]), seller(3, [1], { sheetNumber: null }), seller(4, [5917, 2958])];

  it('are those of the numbers that can be paid, once it was said how many there are', () => {
    const decided = decideChecks(pile(), ready, 3);
    expect(decided.ok && decided.value.map(({ number, sellerNo }) => [number, sellerNo])).toEqual([
      [1041, 1],
      [1042, 4],
      [1043, 4],
    ]);
    expect(decideChecks(pile(), ready, null)).toMatchObject({ code: 'needs_answer' });
    expect(decideChecks(pile(), ready, 4)).toMatchObject({ code: 'conflict' });
  });

  it('that cannot be written yet say what stands in the way first, and not that others are paid', () => {
    const waiting = [seller(2, [0]), seller(3, [1], { sheetNumber: null }), seller(5, [1], { changed: true })];
    const refused = decideChecks(pile(), waiting, null);
    expect(refused).toMatchObject({ code: 'wrong_stage', field: 'sellerNo' });
    expect(!refused.ok && refused.message).toBe(
      'No check can be written yet. Seller number 3 has no sheet yet: issue it first.',
    );
    expect(decideChecks(pile(), [seller(2, [0])], null)).toMatchObject({ code: 'already' });
    expect(decideChecks(pile(), [], null)).toMatchObject({ code: 'already' });
  });

  it('pay each what is owing to the cent, by numbers that follow each other', () => {
    const anySellers = fc.array(fc.array(fc.integer({ min: -500, max: 500 }), { maxLength: 4 }), { maxLength: 6 });
    fc.assert(
      fc.property(anySellers, fc.integer({ min: 1, max: 1000 }), (owing, firstNumber) => {
        const due = owing.flat().filter((amount) => amount > 0);
        const sellers = owing.map((amounts, at) => seller(at + 1, amounts));
        const decided = decideChecks(pile({ firstNumber }), sellers, due.length);
        expect(decided.ok).toBe(due.length > 0);
        if (!decided.ok) return;
        expect(decided.value.map(({ number }) => number)).toEqual(due.map((_, at) => firstNumber + at));
        expect(sumCents(decided.value.map(({ amountCents }) => amountCents))).toBe(due.reduce((a, b) => a + b, 0));
      }),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeFor } from '#lib/drawer/cash.ts';
import { cents, formatMoney } from '#lib/money/money.ts';

const amount = fc.integer({ min: 1, max: 900_000 }).map(cents);

describe('change for cash', () => {
  it('is what was given less the amount, and nothing for the exact amount', () => {
    expect(changeFor('424.00', '440')).toEqual({ ok: true, value: 1600 });
    expect(changeFor('0.10', '.35')).toEqual({ ok: true, value: 25 });
    expect(changeFor('424.00', '424')).toEqual({ ok: true, value: 0 });
    expect(changeFor('424.00', '')).toEqual({ ok: true, value: 0 });
  });

  it('gives back with the amount what was given', () => {
    fc.assert(
      fc.property(amount, amount, (taken, more) => {
        const given = cents(taken + more);
        expect(changeFor(formatMoney(taken), formatMoney(given))).toEqual({ ok: true, value: more });
        expect(changeFor(formatMoney(given), formatMoney(taken))).toMatchObject({ ok: false, field: 'given' });
      }),
    );
  });

  it.each([
    ['', '5', { code: 'missing', field: 'amount' }],
    ['0', '5', { code: 'malformed', field: 'amount' }],
    ['5', '1,5', { code: 'malformed', field: 'given' }],
    ['5', '4.99', { code: 'conflict', field: 'given' }],
  ])('refuses %j with %j', (taken, given, ought) => {
    expect(changeFor(taken, given)).toMatchObject({ ok: false, ...ought });
  });
});

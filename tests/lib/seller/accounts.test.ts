import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents, sumCents } from '#lib/money/money.ts';
import { paidOut, partnerAccounts } from '#lib/seller/account.ts';
import { money, payment } from '#tests/support/facts.ts';

const share = (personId: string, amount: string) => ({ personId, shareCents: money(amount) });
const out = (personId: string | null, amount: string) =>
  payment({ direction: 'out', personId, amountCents: money(amount) });
const back = (personId: string | null, amount: string) => payment({ personId, amountCents: money(amount) });

describe('the accounts of partners', () => {
  it.each([
    ['nothing paid', [share('A', '10.00'), share('B', '5.00')], [], ['10.00', '5.00']],
    ['one paid by name', [share('A', '10.00'), share('B', '5.00')], [out('B', '5.00')], ['10.00', '0.00']],
    [
      'a payment without a name fills them in order',
      [share('A', '10.00'), share('B', '5.00')],
      [out(null, '12.00')],
      ['0.00', '3.00'],
    ],
    [
      'what is too much is the first one’s',
      [share('A', '10.00'), share('B', '5.00')],
      [out(null, '16.00')],
      ['-1.00', '0.00'],
    ],
    ['somebody who is no partner counts as no name', [share('A', '10.00')], [out('X', '4.00')], ['6.00']],
    // What is paid out lessens no debt, and what is paid in nobody's share.
    [
      'money out passes over a debt',
      [share('A', '-5.00'), share('B', '10.00')],
      [out(null, '4.00')],
      ['-5.00', '6.00'],
    ],
    [
      'money in passes over a share',
      [share('A', '10.00'), share('B', '-5.00')],
      [back(null, '4.00')],
      ['10.00', '-1.00'],
    ],
    ['no partner, whoever was paid', [], [out(null, '4.00')], []],
    ['a bill that is paid in', [share('A', '-6.25')], [back('A', '6.25')], ['0.00']],
    ['too much paid, some given back', [share('A', '8.00')], [out('A', '10.00'), back('A', '0.50')], ['-1.50']],
  ] as const)('%s', (...row) => {
    const [, shares, payments, owing] = row;
    expect(partnerAccounts(shares, payments).map((one) => one.owingCents)).toEqual(owing.map(money));
  });

  it('add up to the shares and to the payments, whoever was paid', () => {
    const amount = fc.integer({ min: -50_000, max: 50_000 }).map(cents);
    const shares = fc.array(amount, { minLength: 1, maxLength: 4 });
    const paid = fc.record({
      direction: fc.constantFrom('in' as const, 'out' as const),
      personId: fc.constantFrom('P0', 'P1', 'P9', null),
      amountCents: fc.integer({ min: 1, max: 60_000 }).map(cents),
    });
    fc.assert(
      fc.property(shares, fc.array(paid, { maxLength: 6 }), (amounts, payments) => {
        const accounts = partnerAccounts(
          amounts.map((shareCents, at) => ({ personId: `P${at}`, shareCents })),
          payments,
        );
        expect(sumCents(accounts.map((one) => one.paidCents))).toBe(paidOut(payments));
        for (const one of accounts) expect(one.paidCents + one.owingCents).toBe(one.shareCents);
      }),
    );
  });
});

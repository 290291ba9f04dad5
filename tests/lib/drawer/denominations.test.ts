import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countCash, denominationsOf } from '#lib/drawer/cash.ts';
import { reckonDrawer } from '#lib/drawer/drawer.ts';
import { type Cents, cents } from '#lib/money/money.ts';

describe('denominations', () => {
  it('of US dollars are seven notes and six coins, the dollar once (from memory of the Mint’s and the Bureau’s lists)', () => {
    expect(denominationsOf('USD').map(({ words }) => words)).toEqual([
      ...['100', '50', '20', '10', '5', '2', '1', '50 cents', '25 cents', '10 cents', '5 cents', '1 cent'],
    ]);
    expect(denominationsOf('CHF').map(({ cents: value }) => value)).not.toContain(25);
  });

  it('can make up any amount, and counting it again gives the amount', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50_000_00 }), fc.constantFrom('USD', 'EUR'), (amount, currency) => {
        let left = amount;
        const pieces = denominationsOf(currency).map(({ cents: denominationCents }) => {
          const count = (left - (left % denominationCents)) / denominationCents;
          left -= count * denominationCents;
          return { denominationCents, pieces: count };
        });
        expect(countCash(pieces)).toBe(amount);
      }),
    );
  });
});

describe('the reckoning of a drawer', () => {
  const amount = fc.integer({ min: 0, max: 100_000 }).map(cents);
  const none = { checksCents: null, cardsCents: null, otherCents: null };
  const entry = (kind: 'opened' | 'added' | 'taken' | 'counted', line: number, cashCents: Cents) => ({
    ...{ entryId: line, kind, line, cashCents, ...none },
  });

  it('is even whenever what is counted is the float and everything that was recorded since', () => {
    fc.assert(
      fc.property(fc.tuple(amount, amount, amount), fc.array(fc.integer({ min: -5000, max: 5000 })), (own, moves) => {
        const [float, put, out] = own;
        const stint = [entry('opened', 10, float), entry('added', 11, put), entry('taken', 12, out)];
        const recorded = moves.map((one, at) => ({ line: 20 + at, method: 'cash' as const, amountCents: cents(one) }));
        const early = { line: 9, method: 'cash' as const, amountCents: cents(7777) };
        const late = { line: 1001, method: 'cash' as const, amountCents: cents(7777) };
        const held = float + put - out + moves.reduce((sum, one) => sum + one, 0);
        const count = entry('counted', 1000, cents(held));
        const [cash] = reckonDrawer([...stint, count], [early, ...recorded, late], count);
        expect(cash).toMatchObject({ expectedCents: held, differenceCents: 0 });
        const short = { ...count, cashCents: cents(held - 1) };
        expect(reckonDrawer([...stint, short], recorded, short)[0]?.differenceCents).toBe(-1);
      }),
    );
  });

  it('begins with an opening, or there is none', () => {
    expect(() => reckonDrawer([], [], null)).toThrow(RangeError);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cents, cents, negate, sumCents } from '#lib/money/money.ts';
import {
  buyerBalanceWords,
  buyerLeft,
  type EarlierPayment,
  leftAfter,
  sellerBalanceWords,
} from '#lib/payment/paid-so-far.ts';
import { money } from '#tests/support/facts.ts';

describe('the words of a balance', () => {
  it('say what is due, that nothing is, or what the association owes', () => {
    expect(buyerBalanceWords(money('206.98'), 'USD')).toBe('Balance due after this payment: $206.98');
    expect(buyerBalanceWords(money('0.00'), 'USD')).toBe('Paid in full');
    expect(buyerBalanceWords(money('-3.02'), 'USD')).toBe('After this payment the association owes the buyer $3.02');
    expect(sellerBalanceWords(money('8.67'), 'USD')).toBe('Still to be paid to you after this payment: $8.67');
    expect(sellerBalanceWords(money('0.00'), 'USD')).toBe('Paid in full');
    expect(sellerBalanceWords(money('-5.00'), 'USD')).toBe('Balance due to the association after this payment: $5.00');
  });
});

const amounts = fc.integer({ min: 1, max: 100_000 }).map(cents);
const PEOPLE = ['P1', 'P2', 'P3'];
const earlierOf = fc.array(
  fc.record({
    direction: fc.constantFrom('in' as const, 'out' as const),
    personId: fc.constantFrom(...PEOPLE, null),
    amountCents: amounts,
  }),
  { maxLength: 6 },
);
const whole = (rows: readonly Pick<EarlierPayment, 'direction' | 'personId' | 'amountCents'>[]): EarlierPayment[] =>
  rows.map((row, at) => ({ ...row, paymentId: at + 1, method: 'cash', reference: '', paidOn: '2026-02-28' }));
const moved = (rows: readonly Pick<EarlierPayment, 'direction' | 'amountCents'>[]): Cents =>
  sumCents(rows.map(({ direction, amountCents }) => (direction === 'out' ? amountCents : negate(amountCents))));

describe('what is left after a payment', () => {
  it('is the share less what is listed, what named nobody, and this payment', () => {
    fc.assert(
      fc.property(
        fc.array(amounts, { minLength: 1, maxLength: 3 }),
        earlierOf,
        amounts,
        (shares, rows, amountCents) => {
          const all = shares.map((shareCents, at) => ({ personId: PEOPLE[at] ?? '', shareCents }));
          const earlier = whole(rows);
          const paid = { personId: 'P1', direction: 'out', amountCents, earlier } as const;
          const left = leftAfter(all, paid);
          const [share = cents(0)] = shares;
          // A payment that names nobody is shared out in the order of the partners, so this one may move what was theirs.
          const unnamed = rows.some(
            ({ personId }) => personId === null || !all.some((one) => one.personId === personId),
          );
          if (unnamed) return;
          expect(left.otherCents).toBe(0);
          expect(left.leftCents).toBe(share - moved(left.earlier) - amountCents);
        },
      ),
    );
  });

  it('of all partners together is all shares less all payments', () => {
    fc.assert(
      fc.property(
        fc.array(amounts, { minLength: 1, maxLength: 3 }),
        earlierOf,
        amounts,
        (shares, rows, amountCents) => {
          const all = shares.map((shareCents, at) => ({ personId: PEOPLE[at] ?? '', shareCents }));
          const earlier = whole(rows);
          const left = leftAfter(all, { personId: null, direction: 'out', amountCents, earlier });
          expect(left.otherCents).toBe(0);
          expect(left.leftCents).toBe(sumCents(shares) - moved(earlier) - amountCents);
        },
      ),
    );
  });

  it('of a buyer is the total less all that was taken and not handed back', () => {
    fc.assert(
      fc.property(amounts, earlierOf, amounts, (totalCents, rows, amountCents) => {
        const left = buyerLeft(totalCents, { direction: 'in', amountCents, earlier: whole(rows) });
        expect(left).toBe(totalCents + moved(rows) - amountCents);
      }),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { cents } from '#lib/money/money.ts';
import { decideChecksOf } from '#lib/payment/checks.ts';
import {
  checkNumberIn,
  decideBuyerPayment,
  decideCheckNumber,
  decideSellerPayment,
  type PaymentContext,
} from '#lib/payment/decide-payment.ts';

const SCENE: PaymentContext = { currency: 'USD', at: '2026-02-28T18:00:00Z', timeZone: 'America/Denver', payments: [] };
const account = (personId: string, share: number, paid = 0) => ({
  ...{ personId, shareCents: cents(share), paidCents: cents(paid), owingCents: cents(share - paid) },
});
const SELLER = { sellerNo: 3, sheetNumber: 1, changed: false, waitsFor: [], accounts: [account('P1', 8875)] };
const OUT = { direction: 'out', amountCents: cents(8875), answered: [], person: null, nameOf: () => 'Ada' } as const;

describe('a payment to a seller number', () => {
  it.each([{ sheetNumber: null }, { changed: true }, { waitsFor: [10, 11] }])(
    'is refused by the words in which its checks are refused: %j',
    (over) => {
      const seller = { ...SELLER, ...over };
      const check = decideChecksOf({ stage: 'settling', firstNumber: 1, taken: new Set() }, seller);
      expect(check.ok).toBe(false);
      expect(decideSellerPayment(SCENE, seller, OUT)).toEqual(check);
    },
  );

  it.each([
    [8875, true],
    [8876, false],
  ])('of %i cents against 88.75 is %s', (amount, ok) => {
    expect(decideSellerPayment(SCENE, SELLER, { ...OUT, amountCents: cents(amount) }).ok).toBe(ok);
  });

  it('is nothing where the partner owes', () => {
    const seller = { ...SELLER, accounts: [account('P1', -500)] };
    expect(decideSellerPayment(SCENE, seller, { ...OUT, amountCents: cents(1) })).toMatchObject({ code: 'already' });
  });
});

describe('a payment of a buyer', () => {
  const IN = { direction: 'in', amountCents: cents(1000), answered: [] } as const;

  it.each([
    [1000, true],
    [999, false],
    [-500, false],
  ])('of 10.00 where %i cents are owed goes unasked: %s', (owing, ok) => {
    const answer = decideBuyerPayment(SCENE, { buyerNo: 4, owingCents: cents(owing) }, IN);
    expect(answer.ok).toBe(ok);
    if (!ok) expect(answer).toMatchObject({ code: 'needs_answer', field: 'more_than_owed' });
  });

  it('of another day says which', () => {
    const paid = {
      direction: 'in',
      personId: null,
      amountCents: cents(73_125),
      paidAt: '2026-02-20T18:00:00Z',
    } as const;
    const answer = decideBuyerPayment({ ...SCENE, payments: [paid] }, { buyerNo: 4, owingCents: cents(0) }, IN);
    expect(answer).toMatchObject({
      message: expect.stringMatching(
        /^Buyer 4 owes \$0\.00: \$731\.25 was taken on Feb 20, 2026 at 11:00 AM\. Take \$10\.00 more\?$/,
      ),
    });
  });
});

describe('the number of a check that goes out', () => {
  const check = { direction: 'out', method: 'check' } as const;

  it.each([
    ['1041', 1041],
    ['Check 1041', 1041],
    ['No. 01041', 1041],
    ['', null],
    ['1041, 2026-02-28', null],
    ['123456789', null],
  ])('in %j is %s', (reference, number) => {
    expect(checkNumberIn({ ...check, reference })).toBe(number);
    expect(decideCheckNumber({ ...check, reference }, new Set([1041]))?.code).toBe(
      number === null ? undefined : 'taken',
    );
  });

  it('is none of a check that comes in', () => {
    expect(checkNumberIn({ direction: 'in', method: 'check', reference: '1041' })).toBeNull();
  });
});

import { describe, expect, it } from 'vitest';
import { cents } from '#lib/money/money.ts';
import { decideChecksOf } from '#lib/payment/checks.ts';
import {
  checkNumberIn,
  decideBuyerPayment,
  decideCheckNumber,
  decidePaymentAt,
  decideSellerPayment,
  decideVoid,
  decideVoidAt,
  decideVoidPayment,
  type PaymentContext,
} from '#lib/payment/decide-payment.ts';

const SCENE: PaymentContext = { currency: 'USD', at: '2026-02-28T18:00:00Z', timeZone: 'America/Denver', payments: [] };
const account = (personId: string, share: number, paid = 0) => ({
  ...{ personId, shareCents: cents(share), paidCents: cents(paid), owingCents: cents(share - paid) },
});
const SELLER = {
  sellerNo: 3,
  sheetNumber: 1,
  changed: false,
  waitsFor: [],
  owesAsBuyer: [],
  accounts: [account('P1', 8875)],
};
const OUT = { direction: 'out', amountCents: cents(8875), answered: [], person: null, nameOf: () => 'Ada' } as const;

describe('the stations', () => {
  const money = (direction: 'in' | 'out', sellerNo: number | null) => ({ direction, sellerNo });

  it.each(['till', 'payout', 'office'] as const)(
    '%s takes from buyers and sellers, and gives buyers back',
    (station) => {
      for (const moved of [money('in', null), money('in', 3), money('out', null)]) {
        expect(decidePaymentAt(station, moved).ok).toBe(true);
        for (const method of ['cash', 'check', 'card', 'other'] as const)
          expect(decideVoidAt(station, { ...moved, method }).ok).toBe(true);
      }
    },
  );

  it.each([
    ['intake', false],
    ['block', false],
    ['till', false],
    ['payout', true],
    ['office', true],
  ] as const)('%s pays sellers and voids what they were paid: %s', (station, may) => {
    expect(decidePaymentAt(station, money('out', 3)).ok).toBe(may);
    for (const method of ['cash', 'check', 'card', 'other'] as const)
      expect(decideVoidAt(station, { ...money('out', 3), method }).ok).toBe(may);
  });

  it('say who does what they may not', () => {
    expect(decidePaymentAt('till', money('out', 3))).toMatchObject({
      ...{ code: 'not_allowed', field: 'sellerNo' },
      message: 'Sellers are paid at Payout: send seller number 3 to the treasurer.',
    });
    const voided = (method: 'cash' | 'check') => decideVoidAt('till', { ...money('out', 3), method });
    expect(voided('check')).toMatchObject({
      ...{ code: 'not_allowed', field: 'paymentId' },
      message: 'A check to seller number 3 is voided at Payout: ask the treasurer.',
    });
    expect(voided('cash')).toMatchObject({
      message: 'Money paid to seller number 3 is voided at Payout: ask the treasurer.',
    });
  });
});

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
    const decided = decideSellerPayment(SCENE, SELLER, { ...OUT, amountCents: cents(amount) });
    expect(decided.ok).toBe(ok);
    if (!ok) expect(decided).toMatchObject({ code: 'too_large' });
  });

  const paid = (personId: string | null, amount: number, direction: 'in' | 'out' = 'out') => ({
    ...{ direction, personId, amountCents: cents(amount), paidAt: '2026-02-28T17:00:00Z' },
  });
  /** Two partners: P1 has 19.17 of 59.17 still to get, P2 all of 29.58. */
  const PARTNERS = { ...SELLER, accounts: [account('P1', 5917, 4000), account('P2', 2958)] };
  const person = (personId: string) => ({ personId, name: personId === 'P1' ? 'Ada' : 'Bea' });
  const nameOf = (personId: string) => person(personId).name;

  it('names its own partner’s last payment, and not that of another or one that came in', () => {
    const payments = [paid('P1', 4000), paid('P2', 700), paid('P1', 900, 'in')];
    const more = { ...OUT, amountCents: cents(1918), person: person('P1'), nameOf };
    expect(decideSellerPayment({ ...SCENE, payments }, PARTNERS, more)).toMatchObject({
      code: 'too_large',
      message: 'Ada is still owed $19.17 on seller number 3: $40.00 was paid at 10:00 AM. Pay no more than that.',
    });
    // A payment that names nobody may have been theirs.
    expect(decideSellerPayment({ ...SCENE, payments: [paid(null, 300)] }, PARTNERS, more)).toMatchObject({
      message: expect.stringContaining(': $3.00 was paid at 10:00 AM.'),
    });
    expect(decideSellerPayment({ ...SCENE, payments: [paid('P2', 700)] }, PARTNERS, more)).toMatchObject({
      message: 'Ada is still owed $19.17 on seller number 3. Pay no more than that.',
    });
    expect(decideSellerPayment(SCENE, PARTNERS, { ...more, amountCents: cents(1917) }).ok).toBe(true);
  });

  it('of several partners needs a name, and one of theirs', () => {
    expect(decideSellerPayment(SCENE, PARTNERS, { ...OUT, nameOf })).toMatchObject({
      code: 'missing',
      field: 'personId',
      message: expect.stringContaining('has 2 partners'),
    });
    const stranger = { personId: 'P9', name: 'Cal' };
    for (const direction of ['in', 'out'] as const) {
      const given = {
        ...OUT,
        direction,
        amountCents: cents(1),
        person: stranger,
        answered: ['more_than_owed'] as const,
      };
      expect(decideSellerPayment(SCENE, PARTNERS, given)).toMatchObject({ code: 'not_allowed', field: 'personId' });
    }
  });

  it('is taken from those who owe, up to what they owe unasked', () => {
    // P1 owes 5.00 and P2 owes 2.50; P3 has 40.00 to get, which pays nobody else's debt.
    const owing = {
      ...SELLER,
      sheetNumber: null,
      accounts: [account('P1', -500), account('P2', -250), account('P3', 4000)],
    };
    const take = (amount: number, from: string | null) =>
      decideSellerPayment(SCENE, owing, {
        ...{ direction: 'in', amountCents: cents(amount), answered: [], nameOf },
        person: from === null ? null : person(from),
      });
    expect(take(750, null).ok).toBe(true);
    expect(take(751, null)).toMatchObject({
      code: 'needs_answer',
      message: 'Seller number 3 owes $7.50, and you typed $7.51. That is $0.01 too much. Take it anyway?',
    });
    expect(take(250, 'P2').ok).toBe(true);
    expect(take(251, 'P2')).toMatchObject({
      code: 'needs_answer',
      message: expect.stringContaining('owes $2.50, and'),
    });
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

  it('is handed back up to what was overpaid', () => {
    const back = (amount: number, owing: number, payments: PaymentContext['payments'] = []) =>
      decideBuyerPayment(
        { ...SCENE, payments },
        { buyerNo: 4, owingCents: cents(owing) },
        { direction: 'out', amountCents: cents(amount), answered: ['more_than_owed'] },
      );
    expect(back(817, -817).ok).toBe(true);
    expect(back(818, -817)).toMatchObject({
      code: 'too_large',
      message: 'Buyer 4 has overpaid by $8.17: hand back no more than that.',
    });
    expect(back(1, 0)).toMatchObject({ code: 'already', message: 'Buyer 4 has nothing to get back.' });
    expect(back(1, 500)).toMatchObject({ code: 'already' });
    const before = { personId: null, amountCents: cents(300), paidAt: '2026-02-28T17:00:00Z' };
    const payments = [{ ...before, direction: 'out' } as const, { ...before, direction: 'in' } as const];
    const last = '$3.00 was handed back at 10:00 AM.';
    expect(back(1, 0, payments)).toMatchObject({ message: `Buyer 4 has nothing to get back. ${last}` });
    expect(back(818, -817, payments)).toMatchObject({
      message: `Buyer 4 has overpaid by $8.17: hand back no more than that. ${last}`,
    });
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
        /^Buyer 4 owes nothing, and you typed \$10\.00\. That is \$10\.00 too much\. \$731\.25 was taken on Feb 20, 2026 at 11:00 AM\. Take it anyway\?$/,
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

  it('is none of a check that comes in, nor of cash', () => {
    expect(checkNumberIn({ direction: 'in', method: 'check', reference: '1041' })).toBeNull();
    expect(checkNumberIn({ direction: 'out', method: 'cash', reference: '1041' })).toBeNull();
  });

  it('may be any that is on no other check', () => {
    expect(decideCheckNumber({ ...check, reference: '1042' }, new Set([1041]))).toBeNull();
  });
});

describe('voiding a payment', () => {
  const plain = { stage: 'settling', voids: false, voided: false } as const;
  it.each([
    [{}, 'ok'],
    [{ voided: true }, 'already'],
    [{ voids: true }, 'not_allowed'],
    [{ stage: 'closed' as const }, 'wrong_stage'],
  ])('where %o is %s', (over, ought) => {
    const decided = decideVoid({ ...plain, ...over });
    expect(decided.ok ? 'ok' : decided.code).toBe(ought);
  });

  it('in a closed sale is for what was made after the closing, and otherwise says what to do', () => {
    const closed = { ...plain, stage: 'closed' as const };
    expect(decideVoidPayment(closed, true)).toEqual({ ok: true, value: null });
    expect(decideVoidPayment({ ...closed, voided: true }, true)).toMatchObject({ code: 'already' });
    expect(decideVoidPayment(plain, false)).toEqual({ ok: true, value: null });
    expect(decideVoidPayment(closed, false)).toMatchObject({
      ...{ code: 'wrong_stage', field: 'paymentId' },
      message: expect.stringMatching(/recorded at Payout.*reopen the sale first\.$/),
    });
  });

  it('is said at the charge where it is one', () => {
    const decided = decideVoid({ ...plain, voided: true }, 'charge');
    expect(decided).toMatchObject({ field: 'chargeId', message: 'This charge was already voided.' });
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buyerAccounts, paidBy } from '#lib/buyer/buyer.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { cents, sumCents } from '#lib/money/money.ts';
import type { Payment } from '#lib/sale/facts.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { buyer, lot, saleFacts, sold } from '#tests/support/facts.ts';

const paid = (buyerNo: number, amount: number, direction: Payment['direction'] = 'in'): Payment => ({
  ...{ direction, buyerNo, sellerNo: null, personId: null, method: 'cash' },
  ...{ amountCents: cents(amount), reference: '', paidAt: '2026-02-28T10:00:00Z' },
});

describe('the accounts of the buyers', () => {
  it('are what was bought less what was paid and not handed back, also of who bought nothing', () => {
    const facts = saleFacts({
      buyers: [buyer(11), buyer(10)],
      lots: [lot('1', { count: 32 })],
      outcomes: [sold('1', '13.25', 11)],
      payments: [paid(11, 40_000), paid(11, 2_400), paid(11, 1_000, 'out'), paid(10, 500)],
    });
    const total = invoiceSale(facts)[0]?.totalCents ?? 0;
    expect(buyerAccounts(facts)).toMatchObject([
      { buyerNo: 10, invoice: { lots: 0, totalCents: 0 }, paidCents: 500, owingCents: -500 },
      { buyerNo: 11, invoice: { lots: 1 }, paidCents: 41_400, owingCents: total - 41_400 },
    ]);
  });

  it('add up to the invoices less the money taken', () => {
    const payment = fc.record({ at: fc.nat(), amount: fc.integer({ min: 1, max: 90_000 }), out: fc.boolean() });
    fc.assert(
      fc.property(anySale, fc.array(payment, { maxLength: 8 }), (sale, given) => {
        const numbers = sale.buyers.map(({ buyerNo }) => buyerNo);
        const payments = given.flatMap(({ at, amount, out }) => {
          const buyerNo = numbers[at % Math.max(1, numbers.length)];
          return buyerNo === undefined ? [] : [paid(buyerNo, amount, out ? 'out' : 'in')];
        });
        const facts = { ...sale, payments };
        const owing = sumCents(buyerAccounts(facts).map(({ owingCents }) => owingCents));
        const invoiced = sumCents(invoiceSale(facts).map(({ totalCents }) => totalCents));
        const taken = payments.reduce(
          (so, one) => so + (one.direction === 'in' ? one.amountCents : -one.amountCents),
          0,
        );
        expect(owing).toBe(invoiced - taken);
      }),
    );
  });
});

describe('how a payment was made', () => {
  it('is said once, also where the reference says it again', () => {
    const by = (method: Payment['method'], reference: string) => paidBy({ method, reference });
    expect(by('check', 'Check 1045')).toBe('Check 1045');
    expect(by('check', 'check no. 7')).toBe('Check no. 7');
    expect(by('check', '1045')).toBe('Check 1045');
    expect(by('cash', '')).toBe('Cash');
    expect(by('cash', 'cashier 2')).toBe('Cash cashier 2');
  });
});

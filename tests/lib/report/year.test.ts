import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { addCents, type Cents, cents, sumOf } from '#lib/money/money.ts';
import { type CashPayment, largeCash, largeCashPaper } from '#lib/report/large-cash.ts';
import { taxOfSale } from '#lib/report/sales-tax.ts';
import type { YearPerson, YearSale } from '#lib/report/year.ts';
import { paidInYear, partnerSums, yearByPerson } from '#lib/report/year-by-person.ts';
import type { Payment, SaleFacts } from '#lib/sale/facts.ts';
import { paidOut, partnerAccounts } from '#lib/seller/account.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { charge, lot, money, payment, sale, saleFacts, seller, sold, terms } from '#tests/support/facts.ts';

function personOf(personId: number): YearPerson {
  return { personId, name: `Person ${personId}`, street: '', city: '', region: '', postcode: '', memberNo: '' };
}

/** A sale with somebody behind every reference. */
function yearSale(facts: SaleFacts, over: Partial<YearSale> = {}): YearSale {
  const refs = [...facts.sellers.flatMap(({ partners }) => partners), ...facts.buyers].map(({ personId }) => personId);
  const people = new Map(refs.map((ref, at) => [ref, personOf(at + 1)]));
  return { saleId: 1, stage: 'closed', facts, people, ...over };
}

/** A debt that was given up and a fee that is charged are no money. */
const movesMoney = ({ method }: Pick<Payment, 'method'>) => method !== 'written_off' && method !== 'check_fee';

describe('what the partners of a number share', () => {
  it('is each sum by their parts, the cent left over to the largest remainder and of equal ones to the earlier', () => {
    const partners = [1, 1].map((parts, at) => ({ personId: `P${at}`, memberUntil: '2026-12-31', parts }));
    const facts = saleFacts({
      sale: sale({ terms: terms({ lotFeeCents: money('0.25') }) }),
      sellers: [seller(1, { partners })],
      lots: [lot('1')],
      outcomes: [sold('1', '10.01')],
      charges: [charge({ kind: 'adjustment', amountCents: money('-0.03') })],
    });
    // 10.01 less 0.60 (0.6006), 0.25 and -0.03 is 9.19: 4.60 and 4.59.
    expect(
      settleSale(facts)
        .map(partnerSums)[0]
        ?.map((one) => Object.values(one)),
    ).toEqual([
      ['P0', 501, 30, 13, -1, 460],
      ['P1', 500, 30, 12, -2, 459],
    ]);
  });

  it('adds up to every sum of the number, and the net is the settlement’s own share (law)', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        for (const settled of settleSale(facts)) {
          const shared = partnerSums(settled);
          expect(sumOf(shared, 'grossCents')).toBe(settled.grossCents);
          expect(sumOf(shared, 'commissionCents')).toBe(settled.commissionCents);
          expect(sumOf(shared, 'feesCents')).toBe(
            addCents(settled.lotFeesCents, settled.noSaleFeesCents, settled.sellerNumberFeeCents),
          );
          expect(sumOf(shared, 'chargesCents')).toBe(settled.chargesCents);
          expect(shared.map(({ personId, netCents }) => [personId, netCents])).toEqual(
            settled.shares.map(({ personId, shareCents }) => [personId, shareCents]),
          );
        }
      }),
    );
  });
});

describe('what was paid in a year', () => {
  const late = { direction: 'out', sellerNo: 1, personId: 'P1', amountCents: money('9.40') } as const;
  const facts = saleFacts({
    timeZone: 'America/Denver',
    lots: [lot('1')],
    outcomes: [sold('1', '10.00')],
    payments: [payment({ ...late, paidAt: '2027-01-01T06:00:00Z' })],
  });

  it('goes by the local day', () => {
    const paid = (year: string) => yearByPerson({ year, sales: [yearSale(facts)] }).map((row) => row.paidCents);
    expect([paid('2026'), paid('2027')]).toEqual([[940], []]);
  });

  it('has no debt in it that was written off', () => {
    const given = { direction: 'in', method: 'written_off', sellerNo: 1, personId: 'P1' } as const;
    const payments = [
      ...facts.payments,
      payment({ ...given, amountCents: money('3.00'), paidAt: '2026-12-31T12:00:00Z' }),
    ];
    const [row] = yearByPerson({ year: '2026', sales: [yearSale({ ...facts, payments })] });
    expect(row?.paidCents).toBe(940);
  });

  it('is in all years together what stands on the partners’ accounts, and in each what was paid in it (law)', () => {
    const years = ['2024', '2025', '2026', '2027'];
    const anyTime = fc.constantFrom(
      '2025-12-31T23:30:00Z',
      '2026-01-01T00:30:00Z',
      '2026-06-01',
      '2027-01-01T04:00:00Z',
    );
    const timed = fc.tuple(anySale, fc.array(anyTime, { minLength: 6, maxLength: 6 }));
    fc.assert(
      fc.property(timed, ([drawn, times]) => {
        const payments = drawn.payments.map((one, at) => ({ ...one, paidAt: times[at] ?? one.paidAt }));
        for (const { sellerNo, shares } of settleSale(drawn)) {
          const own = payments.filter((one) => one.sellerNo === sellerNo);
          const inYears = years.map((year) => paidInYear(shares, { payments: own, timeZone: 'America/Denver' }, year));
          const total = shares.map((_, at) => addCents(...inYears.map((one) => one[at] as Cents)));
          expect(total).toEqual(partnerAccounts(shares, own.filter(movesMoney)).map(({ paidCents }) => paidCents));
          const moved = own.filter(movesMoney);
          const early = moved.filter(({ paidAt }) => paidAt < '2026-01-01T07:00:00Z' && paidAt !== '2026-06-01');
          expect(addCents(...(inYears[1] ?? []))).toBe(paidOut(early));
        }
      }),
    );
  });
});

describe('the year by person', () => {
  it('adds up to the settlements of its settled sales, over all people (law)', () => {
    fc.assert(
      fc.property(anySale, anySale, (one, other) => {
        const sales = [yearSale(one), yearSale(other, { saleId: 2, stage: 'settling' })];
        const rows = yearByPerson({ year: '2026', sales });
        const settled = [...settleSale(one), ...settleSale(other)];
        expect(sumOf(rows, 'grossCents')).toBe(sumOf(settled, 'grossCents'));
        expect(sumOf(rows, 'commissionCents')).toBe(sumOf(settled, 'commissionCents'));
        expect(sumOf(rows, 'netCents')).toBe(sumOf(settled, 'netCents'));
        const all = [...one.payments, ...other.payments].filter(movesMoney);
        const payments = all.filter(({ sellerNo }) => sellerNo !== null);
        expect(sumOf(rows, 'paidCents')).toBe(paidOut(payments));
      }),
    );
  });

  it('counts no sale of another year, and none that is still being called', () => {
    const facts = saleFacts({ lots: [lot('1')], outcomes: [sold('1', '10.00')] });
    expect(yearByPerson({ year: '2025', sales: [yearSale(facts)] })).toEqual([]);
    expect(yearByPerson({ year: '2026', sales: [yearSale(facts, { stage: 'selling' })] })).toEqual([]);
  });

  it('never adds up money of two currencies', () => {
    const facts = saleFacts({ lots: [lot('1')], outcomes: [sold('1', '10.00')] });
    const other = { ...facts, sale: sale({ currency: 'CAD' }) };
    const rows = yearByPerson({ year: '2026', sales: [yearSale(facts), yearSale(other, { saleId: 2 })] });
    expect(rows.map(({ currency, netCents }) => [currency, netCents])).toEqual([
      ['USD', 940],
      ['CAD', 940],
    ]);
  });
});

describe('the sales tax of a sale', () => {
  it('is that of its invoices, part by part (law)', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const tax = taxOfSale(yearSale(facts));
        const invoices = invoiceSale(facts);
        expect(tax.taxCents).toBe(sumOf(invoices, 'taxCents'));
        expect(tax.billedCents).toBe(sumOf(invoices, 'totalCents'));
        expect(addCents(tax.taxableCents, tax.exemptCents, tax.taxCents)).toBe(tax.billedCents);
        const exempt = invoices.filter(({ taxExempt }) => taxExempt);
        expect(tax.exemptCents).toBe(addCents(sumOf(exempt, 'amountCents'), sumOf(exempt, 'premiumCents')));
        expect(tax.buyers.map(({ buyerNo, exempt }) => [buyerNo, exempt])).toEqual(
          invoices.map(({ buyerNo, taxExempt }) => [buyerNo, taxExempt]),
        );
      }),
    );
  });
});

// The limit is that of 26 U.S.C. 6050I(a): more than $10,000, and not so much. That twelve months are looked at together
// is 26 CFR 1.6050I-1(b), of which we read reprints only.
describe('large cash payments', () => {
  let ids = 0;
  const cash = (paidOn: string, amount: string, over: Partial<CashPayment> = {}): CashPayment => {
    ids += 1;
    const of = { name: 'Late Winter Sale', heldOn: '2026-02-28' };
    const whose = { person: personOf(1), currency: 'USD', sale: of, buyerNo: 10 };
    return { paymentId: ids, ...whose, paidOn, amountCents: money(amount), ...over };
  };
  const found = (year: string, payments: CashPayment[]) =>
    largeCash(year, payments).map(({ mostCents, overOn, payments: own }) => [mostCents, overOn, own.length]);

  it('are more than 10,000.00, and exactly so much is none', () => {
    expect(found('2026', [cash('2026-02-28', '10000.00')])).toEqual([]);
    expect(found('2026', [cash('2026-02-28', '10000.01')])).toEqual([[1_000_001, '2026-02-28', 1]]);
  });

  it('come together over twelve months, and not over a day more', () => {
    const last = cash('2027-02-28', '6000.00');
    expect(found('2027', [cash('2026-03-01', '6000.00'), last])).toEqual([[1_200_000, '2027-02-28', 2]]);
    expect(found('2027', [cash('2026-02-28', '6000.00'), last])).toEqual([]);
    expect(found('2026', [cash('2026-03-01', '6000.00'), last])).toEqual([]);
    expect(found('2028', [cash('2027-03-01', '6000.00'), cash('2028-02-29', '6000.00')])).toHaveLength(1);
  });

  it('are of one person and one currency', () => {
    const half = cash('2026-02-28', '6000.00');
    expect(found('2026', [half, cash('2026-02-28', '6000.00', { person: personOf(2) })])).toEqual([]);
    expect(found('2026', [half, cash('2026-02-28', '6000.00', { currency: 'CAD' })])).toEqual([]);
  });

  it('leave out nobody who paid so much in twelve months that end in the year, and name nobody else (law)', () => {
    const anyCash = fc.record({
      day: fc.integer({ min: 0, max: 1200 }),
      amountCents: fc.integer({ min: 1, max: 700_000 }).map(cents),
      who: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(anyCash, { maxLength: 12 }), (drawn) => {
        const first = Date.UTC(2025, 0, 1);
        const dated = drawn.map(({ day, ...rest }) => ({ ...rest, at: new Date(first + day * 86_400_000) }));
        const payments = dated.map(({ at, amountCents, who }) =>
          cash(at.toISOString().slice(0, 10), '0', { amountCents, person: personOf(who) }),
        );
        const sums = dated.map((last) => {
          const before = new Date(last.at);
          before.setUTCFullYear(before.getUTCFullYear() - 1);
          const own = dated.filter(({ who, at }) => who === last.who && at > before && at <= last.at);
          return {
            who: last.who,
            year: last.at.getUTCFullYear(),
            sum: own.reduce((so, one) => so + one.amountCents, 0),
          };
        });
        for (const year of [2025, 2026, 2027, 2028]) {
          const ought = sums.filter((one) => one.year === year && one.sum > 1_000_000).map(({ who }) => who);
          const is = largeCash(String(year), payments).map(({ person }) => person.personId);
          expect(is).toEqual([...new Set(ought)].sort());
        }
      }),
    );
  });

  it('name the form of the United States to those only whose money is dollars', () => {
    const ground = {
      association: { ...personOf(0), phone: '', email: '' },
      issuedOn: '2027-03-02',
      head: { seq: 1, hash: 'a'.repeat(64) },
    };
    const words = (currency: string) => {
      const facts = { year: '2026', sales: [yearSale(saleFacts({ sale: sale({ currency }) }))] };
      return largeCashPaper(ground, { facts, payments: [] }).opening.join(' ');
    };
    expect(words('USD')).toMatch(/Form 8300 of the IRS, within 15 days \(26 U\.S\.C\. 6050I\)\. Ask the accountant/);
    expect(words('CAD')).not.toMatch(/8300|IRS|\$/);
    expect(words('CAD')).toContain('Ask the accountant');
  });
});

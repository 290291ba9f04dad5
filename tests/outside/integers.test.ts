/**
 * The sums of `lib/`, which are in decimal.js, against whole numbers alone (`tests/support/integer-judge.ts`): each product,
 * percentage and division, shares by parts, and whole sales. Half of the figures are made to end on half a cent, because
 * a random set may hold no tie; the tests count them.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { amountEach, lotAmount } from '#lib/lot/amount.ts';
import { Decimal, percentOf, roundHalfUp } from '#lib/money/decimal.ts';
import { cents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import type { Lot, Membership, Outcome, SaleFacts, Terms } from '#lib/sale/facts.ts';
import { allocate, settleSale } from '#lib/settlement/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { lot } from '#tests/support/facts.ts';
import { percentHalfUp, scaledHalfUp, sharesOfWhole } from '#tests/support/integer-judge.ts';
import { chanceOf } from '#tests/support/random.ts';

const MOST = 999_999_999;
const anyCents = fc.integer({ min: -MOST, max: MOST }).map(cents);
const anyPrice = fc.integer({ min: 0, max: MOST }).map(cents);

describe('the judge itself', () => {
  it.each([
    [2573, 1, 1, 2573],
    [5, 500, 1000, 3],
    [5, 499, 1000, 2],
    [-5, 500, 1000, -3],
    [-5, 499, 1000, -2],
    [0, 500, 1000, 0],
    // The product is past the whole numbers that a float holds exactly.
    [999_999_999, 999_999_999, 1000, 999_999_998_000_000],
  ])('%i times %i over %i is %i, and so it is in decimals', (...[amount, times, per, result]) => {
    expect(scaledHalfUp(BigInt(amount), BigInt(times), BigInt(per))).toBe(BigInt(result));
    expect(roundHalfUp(new Decimal(amount).times(times).dividedBy(per))).toBe(result);
  });
});

describe('products, percentages and divisions', () => {
  it('a decimal product and quotient, rounded once, is the whole number nearest', () => {
    const times = fc.integer({ min: 0, max: MOST });
    fc.assert(
      fc.property(anyCents, times, fc.constantFrom(1, 2, 3, 1000, 1_000_000), (...[amount, factor, per]) => {
        fc.pre(Math.abs(amount) * (factor / per) < Number.MAX_SAFE_INTEGER);
        const exact = roundHalfUp(new Decimal(amount).times(factor).dividedBy(per));
        expect(BigInt(exact)).toBe(scaledHalfUp(BigInt(amount), BigInt(factor), BigInt(per)));
      }),
      { numRuns: 2000 },
    );
  });

  it('sum 1: an amount, also of the largest price and weight', () => {
    const anyWeight = fc.oneof(
      fc.integer({ min: 1, max: MOST }),
      fc.nat({ max: 999_998 }).map((pounds) => pounds * 1000 + 500),
    );
    fc.assert(
      fc.property(anyPrice, anyWeight, fc.integer({ min: 1, max: 99_999 }), (price, weightThousandths, count) => {
        const byWeight = lotAmount(price, lot('1', { by: 'oz', weightThousandths }));
        expect(BigInt(byWeight)).toBe(scaledHalfUp(BigInt(price), BigInt(weightThousandths), 1000n));
        expect(BigInt(lotAmount(price, lot('1', { count })))).toBe(BigInt(price) * BigInt(count));
        expect(lotAmount(price, lot('1', { by: 'lot', count }))).toBe(price);
        expect(BigInt(amountEach(price, count))).toBe(scaledHalfUp(BigInt(price), 1n, BigInt(count)));
      }),
      { numRuns: 2000 },
    );
  });

  it('a percentage of any amount at any rate of four places', () => {
    const anyRate = fc.oneof(
      fc.constantFrom('0', '.5', '2.5', '3.75', '06', '12.5', '33.3333', '50', '100.0000'),
      fc
        .integer({ min: 0, max: 999_999 })
        .map((at) => `${Math.trunc(at / 10_000)}.${String(at % 10_000).padStart(4, '0')}`),
    );
    fc.assert(
      fc.property(anyCents, anyRate, (amount, pct) => {
        expect(BigInt(roundHalfUp(percentOf(amount, rate(pct))))).toBe(percentHalfUp(BigInt(amount), pct));
      }),
      { numRuns: 2000 },
    );
  });

  it('a hundred thousand products and percentages of which every fourth is a tie', () => {
    const { int, pick } = chanceOf(20_261_201);
    let ties = 0;
    for (let at = 0; at < 50_000; at += 1) {
      const tied = at % 2 === 0;
      const price = tied ? 2 * int(0, 20_000) + 1 : int(0, 60_000);
      const weightThousandths = tied ? 500 + 1000 * int(0, 40) : int(1, 900_000);
      if ((price * weightThousandths) % 1000 === 500) ties += 1;
      const amount = lotAmount(cents(price), lot('1', { by: 'lb', weightThousandths }));
      const pct = pick(['2.5', '5', '7.5', '10', '12.5']);
      const share = roundHalfUp(percentOf(amount, rate(pct)));
      // One comparison that hardly ever fails is quicker than a hundred thousand expectations.
      const right =
        BigInt(amount) === scaledHalfUp(BigInt(price), BigInt(weightThousandths), 1000n) &&
        BigInt(share) === percentHalfUp(BigInt(amount), pct);
      if (!right) expect({ price, weightThousandths, pct, amount, share }).toBe('the same as in whole numbers');
    }
    expect(ties).toBeGreaterThanOrEqual(25_000);
  });
});

describe('sum 7: shares by parts', () => {
  it('are those of whole numbers, a tie to the earlier, however large the amount and the parts', () => {
    const anyTotal = fc.oneof(anyCents, fc.maxSafeInteger().map(cents));
    // Few different parts make many equal remainders.
    const anyPart = fc.oneof(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER }));
    const anyParts = fc
      .array(anyPart, { minLength: 1, maxLength: 12 })
      .filter((parts) => parts.some((part) => part > 0));
    fc.assert(
      fc.property(anyTotal, anyParts, (total, parts) => {
        expect(allocate(total, parts).map(BigInt)).toEqual(sharesOfWhole(BigInt(total), parts.map(BigInt)));
      }),
      { numRuns: 2000 },
    );
  });

  it('equal remainders are equal behind whole cents of different length: a quotient cut off at some digit is not', () => {
    // A third of a cent is left of the first three, and the one cent left over is the first one's.
    expect(allocate(cents(31), [31, 1, 31, 30])).toEqual([11, 0, 10, 10]);
    expect(allocate(cents(31), [1, 31, 31, 30])).toEqual([1, 10, 10, 10]);
  });
});

interface Called {
  readonly own: Lot;
  readonly outcome: Outcome;
}

/** Sums 1, 3, 4, 5 and 11 of one lot. */
function lineInWholes({ own, outcome }: Called, terms: Terms, membership: Membership) {
  const amountOf = (price: number | null) => {
    if (price === null || own.by === 'lot') return BigInt(price ?? 0);
    if (own.by === 'piece') return BigInt(price) * BigInt(own.count ?? 0);
    return scaledHalfUp(BigInt(price), BigInt(own.weightThousandths ?? 0), 1000n);
  };
  const hammer = amountOf(outcome.priceCents);
  const amount = outcome.kind === 'sold' ? hammer : 0n;
  const hammered = outcome.kind === 'sold' || outcome.kind === 'bought_back';
  const pays = (hammered || outcome.kind === 'passed') && !own.donated;
  const share = percentHalfUp(hammer, (terms.commissionOverrides[own.goods] ?? terms.commission)[membership]);
  const least = BigInt(terms.commissionMinCents);
  const raised = share < least ? least : share;
  const commission = pays && hammered ? (raised > hammer ? hammer : raised) : 0n;
  const noSale = BigInt(terms.noSaleFlatCents) + percentHalfUp(amountOf(own.minimumCents), terms.noSalePctOfMinimum);
  const lotFee = pays ? BigInt(terms.lotFeeCents) : 0n;
  const noSaleFee = pays && outcome.kind === 'passed' ? noSale : 0n;
  return { amount, commission, lotFee, noSaleFee, gross: own.donated ? 0n : amount };
}

function calledOf({ lots, outcomes }: SaleFacts): Called[] {
  return lots.flatMap((own) => {
    const outcome = outcomes.find(({ lotNo }) => lotNo === own.lotNo);
    return outcome ? [{ own, outcome }] : [];
  });
}

const total = (amounts: readonly bigint[]) => amounts.reduce((so, amount) => so + amount, 0n);

describe('whole sales', () => {
  it('sums 2 to 7: every seller number settles to the same cents', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const { terms, heldOn } = facts.sale;
        for (const settled of settleSale(facts)) {
          const partners = facts.sellers.find(({ sellerNo }) => sellerNo === settled.sellerNo)?.partners ?? [];
          const paid = partners.every(({ memberUntil }) => memberUntil !== null && memberUntil >= heldOn);
          const lines = calledOf(facts)
            .filter(({ own }) => own.sellerNo === settled.sellerNo)
            .map((called) => lineInWholes(called, terms, paid ? 'member' : 'guest'));
          const off = lines.map(({ commission, lotFee, noSaleFee }) => commission + lotFee + noSaleFee);
          const charged = facts.charges
            .filter(({ sellerNo, how }) => sellerNo === settled.sellerNo && how === 'deducted')
            .map(({ amountCents }) => BigInt(amountCents));
          const gross = total(lines.map((line) => line.gross));
          const net = gross - total(off) - total(charged) - BigInt(terms.sellerNumberFeeCents);
          expect(BigInt(settled.grossCents)).toBe(gross);
          expect(BigInt(settled.commissionCents)).toBe(total(lines.map(({ commission }) => commission)));
          expect(BigInt(settled.noSaleFeesCents)).toBe(total(lines.map(({ noSaleFee }) => noSaleFee)));
          expect(BigInt(settled.netCents)).toBe(net);
          const shares = sharesOfWhole(
            net,
            partners.map(({ parts }) => BigInt(parts)),
          );
          expect(settled.shares.map(({ shareCents }) => BigInt(shareCents))).toEqual(shares);
        }
      }),
    );
  });

  it('sum 8: every buyer is billed to the same cents', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const { terms } = facts.sale;
        for (const invoice of invoiceSale(facts)) {
          const amounts = calledOf(facts)
            .filter(({ outcome }) => outcome.kind === 'sold' && outcome.buyerNo === invoice.buyerNo)
            .map((called) => lineInWholes(called, terms, 'guest').amount);
          const premium = total(amounts.map((amount) => percentHalfUp(amount, terms.premiumPct)));
          const taxed = percentHalfUp(total(amounts) + premium, terms.taxPct);
          const tax = invoice.taxExempt ? 0n : taxed;
          const { amountCents, premiumCents, taxCents, totalCents } = invoice;
          expect([amountCents, premiumCents, taxCents, totalCents].map(BigInt)).toEqual([
            total(amounts),
            premium,
            tax,
            total(amounts) + premium + tax,
          ]);
        }
      }),
    );
  });
});

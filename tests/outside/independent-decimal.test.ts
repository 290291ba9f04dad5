/**
 * Ten thousand random sale lines worked out once more with big.js, another decimal library of the npm registry, from the
 * words of the rules and not from our code. A third of the lines are made to end on half a cent, because a random set may
 * hold no tie and would let binary floats pass; the test counts them.
 */
import Big from 'big.js';
import { describe, expect, it } from 'vitest';
import { premiumOf } from '#lib/invoice/invoice.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { lotNo } from '#lib/lot/number.ts';
import { type Cents, cents, formatMoney, formatWeight } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import type { By, Lot, Membership, Outcome, Terms } from '#lib/sale/facts.ts';
import { sheetRow } from '#lib/settlement/settlement.ts';
import { lot, terms } from '#tests/support/facts.ts';
import { chanceOf } from '#tests/support/random.ts';

const LINES = 10_000;
const SEED = 20_260_228;

interface Line {
  readonly lot: Lot;
  readonly outcome: Outcome;
  readonly terms: Terms;
  readonly membership: Membership;
}

const RATES = ['0', '2', '2.5', '3.75', '5', '6', '7.5', '10', '12.5', '33.3333', '100'];

function lines(): Line[] {
  const { int, pick, once } = chanceOf(SEED);
  return Array.from({ length: LINES }, (_, at) => {
    const by = pick<By>(['piece', 'lot', 'lb', 'oz']);
    // Every third line a weight of so many halves and an odd price: half a cent by the very sum.
    const tie = at % 3 === 0 && (by === 'lb' || by === 'oz');
    const price = tie ? 2 * int(0, 20_000) + 1 : int(0, 60_000);
    const weightThousandths = tie ? 500 + 1000 * int(0, 40) : int(1, 900_000);
    const minimumCents = once(3) ? null : cents(int(1, 30_000));
    const more = { by, count: int(1, 400), weightThousandths, minimumCents, donated: once(12) };
    const no = String(at + 1);
    const kind = pick(['sold', 'sold', 'sold', 'passed', 'withdrawn', 'bought_back', 'unpaid'] as const);
    const bought = kind === 'sold' || kind === 'unpaid';
    const priced = bought || kind === 'bought_back';
    return {
      lot: lot(no, { ...more, goods: pick(['bobcat', 'raccoon']) }),
      outcome: { lotNo: lotNo(no), kind, priceCents: priced ? cents(price) : null, buyerNo: bought ? 10 : null },
      terms: terms({
        commission: { member: rate(pick(RATES)), guest: rate(pick(RATES)) },
        commissionOverrides: { bobcat: { member: rate(pick(RATES)), guest: rate(pick(RATES)) } },
        commissionMinCents: cents(pick([0, 10, 250])),
        lotFeeCents: cents(pick([0, 25])),
        noSaleFlatCents: cents(pick([0, 100])),
        noSalePctOfMinimum: rate(pick(RATES)),
        premiumPct: rate(pick(RATES)),
      }),
      membership: pick<Membership>(['member', 'guest']),
    };
  });
}

const dollars = (amount: Cents | null) => new Big(formatMoney(amount ?? cents(0)));
const halfUp = (amount: Big) => amount.round(2, Big.roundHalfUp);
const percent = (amount: Big, pct: string) => halfUp(amount.times(pct).div(100));

function quantity({ by, count, weightThousandths }: Lot): Big {
  if (by === 'lot') return new Big(1);
  return new Big(by === 'piece' ? String(count) : formatWeight(weightThousandths ?? 0));
}

/** Rules 1, 3, 4, 5, 8 and 11 in dollars. */
function inDollars({ lot: own, outcome, terms: agreed, membership }: Line) {
  const none = new Big(0);
  const sold = outcome.kind === 'sold';
  const hammered = sold || outcome.kind === 'bought_back';
  const pays = (hammered || outcome.kind === 'passed') && !own.donated;
  const hammer = halfUp(dollars(outcome.priceCents).times(quantity(own)));
  const amount = sold ? hammer : none;
  const pct = (own.goods === 'bobcat' ? agreed.commissionOverrides.bobcat : undefined) ?? agreed.commission;
  const share = percent(hammer, pct[membership]);
  const least = dollars(agreed.commissionMinCents);
  const raised = share.lt(least) ? least : share;
  const commission = hammered && pays ? (raised.gt(hammer) ? hammer : raised) : none;
  const lotFee = pays ? dollars(agreed.lotFeeCents) : none;
  const minimum = halfUp(dollars(own.minimumCents).times(quantity(own)));
  const passed = dollars(agreed.noSaleFlatCents).plus(percent(minimum, agreed.noSalePctOfMinimum));
  const noSaleFee = outcome.kind === 'passed' && pays ? passed : none;
  const fees = lotFee.plus(noSaleFee);
  const net = (own.donated ? none : amount).minus(commission).minus(fees);
  const premium = percent(amount, agreed.premiumPct);
  return [amount, commission, lotFee, noSaleFee, fees, net, premium].map((value) => value.toFixed(2));
}

function ours({ lot: own, outcome, terms: agreed, membership }: Line) {
  const line = sheetRow(own, outcome, { terms: agreed, membership });
  const { amountCents, commissionCents, lotFeeCents, noSaleFeeCents, feesCents, netCents } = line;
  const premium = premiumOf(amountCents, agreed);
  return [amountCents, commissionCents, lotFeeCents, noSaleFeeCents, feesCents, netCents, premium].map(formatMoney);
}

describe('ten thousand sale lines, worked out again with big.js', () => {
  const all = lines();

  it('come to the same cents', () => {
    expect(all).toHaveLength(LINES);
    // One comparison at the end is quicker than ten thousand; the first difference is shown whole.
    const wrong = all.find((line) => ours(line).join() !== inDollars(line).join());
    expect(wrong && { line: wrong, ours: ours(wrong), bigJs: inDollars(wrong) }).toBeUndefined();
  });

  it('hold enough ties to tell half up from other ways of rounding, and from floats', () => {
    const sold = all.filter(({ outcome }) => outcome.kind === 'sold');
    const exact = sold.map(({ lot: own, outcome }) => dollars(outcome.priceCents).times(quantity(own)));
    const ties = exact.filter((amount) => amount.times(1000).mod(10).eq(5) && amount.times(1000).mod(1).eq(0));
    expect(ties.length).toBeGreaterThan(500);
    const amounts = sold.map(({ lot: own, outcome }) => formatMoney(lotAmount(outcome.priceCents ?? cents(0), own)));
    const differ = (other: (amount: Big) => string) =>
      exact.filter((amount, at) => other(amount) !== amounts[at]).length;
    expect(differ((amount) => amount.toFixed(2, Big.roundHalfEven))).toBeGreaterThan(100);
    expect(differ((amount) => amount.toFixed(2, Big.roundDown))).toBeGreaterThan(500);
    expect(differ((amount) => amount.toNumber().toFixed(2))).toBeGreaterThan(50);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents } from '#lib/money/money.ts';
import {
  decideCorrection,
  decideOutcome,
  type OutcomeContext,
  type OutcomeQuestion,
  type ProposedOutcome,
  QUESTIONS,
} from '#lib/outcome/decide-outcome.ts';
import { refuse } from '#lib/result/result.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { money } from '#tests/support/facts.ts';

/** A lot whose seller wants 5.00, at a sale by steps of 0.25; from 0.80 to 43.50 no price is unusual. */
const scene = (over: Partial<OutcomeContext> = {}): OutcomeContext => ({
  ...{ lotNo: '12', stage: 'selling', standing: null, holds: [], minimumCents: money('5.00') },
  ...{ priceStepCents: money('0.25'), usual: { lowCents: money('0.80'), highCents: money('43.50') } },
  buyer: { buyerNo: 10, cleared: true, sellsThisLot: false },
  ...over,
});
const sold = (price: string, answered: readonly OutcomeQuestion[] = []): ProposedOutcome => ({
  ...{ kind: 'sold', priceCents: money(price), buyerNo: 10, answered },
});
const boughtBack = (price: string | null, answered: readonly OutcomeQuestion[] = []): ProposedOutcome => ({
  ...{ kind: 'bought_back', priceCents: price === null ? null : money(price), buyerNo: null, answered },
});
const unsold = (kind: 'passed' | 'withdrawn'): ProposedOutcome => ({
  ...{ kind, priceCents: null, buyerNo: null, answered: [] },
});

/** What is asked one after another, each answered when it is asked, until the outcome is accepted. */
function asked(context: OutcomeContext, price: string): OutcomeQuestion[] {
  const answered: OutcomeQuestion[] = [];
  for (;;) {
    const decided = decideOutcome(context, sold(price, answered));
    if (decided.ok) return answered;
    const question = QUESTIONS.find((one) => one === decided.field);
    if (question === undefined || answered.includes(question)) throw new Error(decided.message);
    answered.push(question);
  }
}

const seller = { buyerNo: 10, cleared: true, sellsThisLot: true };
const stranger = { buyerNo: 10, cleared: false, sellsThisLot: false };

describe('what is asked when the hammer falls', () => {
  it.each([
    ['nothing, between all bounds', '7.25', {}, []],
    ['nothing at the minimum', '5.00', {}, []],
    ['a step below the minimum', '4.75', {}, ['below_minimum']],
    ['nothing where there is no minimum', '4.75', { minimumCents: null }, []],
    ['after the seller’s time, both', '4.75', { answerWasBy: 'Feb 27' }, ['answer_late', 'below_minimum']],
    ['nothing after it where no answer is needed', '5.00', { answerWasBy: 'Feb 27' }, []],
    ['nothing at the highest usual price', '43.50', {}, []],
    ['above it', '43.75', {}, ['price_unusual']],
    ['nothing at the lowest usual price', '0.75', { minimumCents: null, usual: { lowCents: 75, highCents: 100 } }, []],
    ['below it', '0.50', { minimumCents: null }, ['price_unusual']],
    ['nothing where no price is known to be usual', '900.00', { usual: null }, []],
    ['between two steps', '7.30', {}, ['off_step']],
    ['nothing where prices go by no step', '7.31', { priceStepCents: 0 }, []],
    ['a seller of the lot', '7.25', { buyer: seller }, ['seller_buys']],
    ['a buyer whom the cashier has not cleared', '7.25', { buyer: stranger }, ['buyer_not_cleared']],
    [
      'all there is, one after another',
      '0.10',
      { answerWasBy: 'Feb 27', buyer: { buyerNo: 10, cleared: false, sellsThisLot: true } },
      ['answer_late', 'below_minimum', 'seller_buys', 'buyer_not_cleared', 'price_unusual', 'off_step'],
    ],
  ])('%s', (_, price, over, questions) => {
    expect(asked(scene(over as Partial<OutcomeContext>), price)).toEqual(questions);
  });

  it.each([
    ['4.75', {}, "The seller's minimum is 5.00."],
    ['4.75', { answerWasBy: 'Feb 27' }, 'ended on Feb 27.'],
    ['50.00', {}, 'far from earlier prices (0.80 to 43.50 is usual)'],
    ['7.30', {}, 'Prices go by 0.25 at this sale.'],
    ['7.25', { buyer: seller }, 'Buyer 10 is a seller of this lot.'],
    ['7.25', { buyer: stranger }, 'Buyer 10 is not cleared to buy.'],
  ])('at %s with %o is asked with what it is about', (price, over, words) => {
    expect(decideOutcome(scene(over), sold(price))).toMatchObject({ message: expect.stringContaining(words) });
  });

  it('is kept where it was asked, and not where somebody answered unasked', () => {
    expect(decideOutcome(scene(), sold('4.75', QUESTIONS))).toEqual({ ok: true, value: ['below_minimum'] });
    expect(decideOutcome(scene(), sold('7.25', QUESTIONS))).toEqual({ ok: true, value: [] });
  });

  it('lets no outcome through until each of its questions is answered', () => {
    const anyScene = fc.record({
      minimumCents: fc.option(fc.integer({ min: 0, max: 600 }).map(cents)),
      priceStepCents: fc.constantFrom(0, 5, 25).map(cents),
      usual: fc.option(fc.constant({ lowCents: cents(100), highCents: cents(400) })),
      answerWasBy: fc.option(fc.constant('Feb 27')),
      buyer: fc.record({ buyerNo: fc.constant(10), cleared: fc.boolean(), sellsThisLot: fc.boolean() }),
    });
    const price = fc.integer({ min: 1, max: 600 }).map(cents);
    fc.assert(
      fc.property(anyScene, price, fc.subarray([...QUESTIONS]), (over, priceCents, answered) => {
        const given = { ...sold('0.01'), priceCents };
        const all = decideOutcome(scene(over), { ...given, answered: QUESTIONS });
        if (!all.ok) throw new Error(all.message);
        const some = decideOutcome(scene(over), { ...given, answered });
        const open = all.value.find((question) => !answered.includes(question));
        if (open === undefined) expect(some).toEqual(all);
        else expect(some).toMatchObject({ ok: false, code: 'needs_answer', field: open });
      }),
    );
  });
});

describe('an outcome is refused', () => {
  it.each(STAGES)('at the stage %s unless the sale runs; corrected it may be while the sale settles', (stage) => {
    const first = decideOutcome(scene({ stage }), sold('7.25'));
    const later = decideCorrection(scene({ stage, standing: 'passed' }), sold('7.25'));
    expect(first.ok).toBe(stage === 'selling');
    expect(later.ok).toBe(stage === 'selling' || stage === 'settling');
    const next = stage === 'closed' ? 'reopen it first' : 'Start the sale first';
    if (!first.ok) expect(first).toMatchObject({ code: 'wrong_stage', message: expect.stringContaining(next) });
  });

  it('where one stands, and says who took it down; a correction where none does', () => {
    const standing = 'sold to buyer 10 at 12.50';
    expect(decideOutcome(scene({ standing }), sold('7.25'))).toMatchObject({
      code: 'already',
      field: 'lotNo',
      message: 'Lot 12 is already sold to buyer 10 at 12.50. To change it, correct it and give the reason.',
    });
    expect(decideOutcome(scene({ standing, takenDown: 'Ada at 3:04 PM' }), sold('7.25'))).toMatchObject({
      message: expect.stringContaining('at 12.50. Taken down by Ada at 3:04 PM. To change it'),
    });
    expect(decideCorrection(scene(), sold('7.25'))).toMatchObject({ code: 'unknown', field: 'lotNo' });
  });

  it('of a lot on hold, which can only be withdrawn', () => {
    const held = scene({ holds: ['A tag is missing.', 'A tag is broken.'] });
    for (const proposed of [sold('7.25'), unsold('passed')]) {
      expect(decideOutcome(held, proposed)).toMatchObject({
        code: 'on_hold',
        message: 'Lot 12 is on hold. A tag is missing. A tag is broken.',
      });
    }
    expect(decideOutcome(held, unsold('withdrawn'))).toEqual({ ok: true, value: [] });
  });

  it('while written bids still come in, which keep no lot from being withdrawn', () => {
    const early = { sold: refuse('wrong_stage', 'Not sold yet.'), passed: refuse('wrong_stage', 'Not passed yet.') };
    expect(decideOutcome(scene({ bidsRun: early }), sold('7.25'))).toBe(early.sold);
    expect(decideOutcome(scene({ bidsRun: early }), unsold('passed'))).toBe(early.passed);
    expect(decideOutcome(scene({ bidsRun: early }), unsold('withdrawn'))).toEqual({ ok: true, value: [] });
    // Each of the two has its own reason.
    expect(decideOutcome(scene({ bidsRun: { ...early, sold: null } }), sold('7.25')).ok).toBe(true);
  });

  it('without what it needs, or with what it cannot have', () => {
    const noBuyer = scene({ buyer: null });
    expect(decideOutcome(scene(), { ...sold('7.25'), priceCents: null })).toMatchObject({ field: 'price' });
    expect(decideOutcome(noBuyer, { ...sold('7.25'), buyerNo: null })).toMatchObject({ code: 'missing' });
    expect(decideOutcome(noBuyer, sold('7.25'))).toMatchObject({ code: 'unknown', field: 'buyerNo' });
    for (const kind of ['passed', 'withdrawn'] as const) {
      const passed = { ...unsold(kind), buyerNo: 10 };
      expect(decideOutcome(scene(), passed)).toMatchObject({ code: 'malformed', field: 'buyerNo' });
      expect(decideOutcome(scene(), { ...passed, priceCents: cents(1) })).toMatchObject({ field: 'price' });
      expect(decideOutcome(scene(), { ...unsold(kind), priceCents: cents(1) })).toMatchObject({ field: 'price' });
    }
  });
});

// Common practice, no source: the seller's own bid ends the lot, with nobody to pay.
describe('a lot that its seller buys back', () => {
  it('has a price and no buyer, also below the seller’s own minimum', () => {
    expect(decideOutcome(scene(), boughtBack('4.75'))).toEqual({ ok: true, value: [] });
    expect(decideOutcome(scene(), boughtBack(null))).toMatchObject({ code: 'missing', field: 'price' });
    const both = { ...boughtBack('7.25'), buyerNo: 10 };
    expect(decideOutcome(scene(), both)).toMatchObject({ code: 'malformed', field: 'buyerNo' });
  });

  it('is asked about a price that looks mistyped, as any other', () => {
    expect(decideOutcome(scene(), boughtBack('7.30'))).toMatchObject({ code: 'needs_answer', field: 'off_step' });
    expect(decideOutcome(scene(), boughtBack('725.00'))).toMatchObject({ field: 'price_unusual' });
    expect(decideOutcome(scene(), boughtBack('7.30', ['off_step']))).toEqual({ ok: true, value: ['off_step'] });
  });

  it('is not put up while it is on hold, nor before the written bids are over', () => {
    expect(decideOutcome(scene({ holds: ['A tag is missing.'] }), boughtBack('7.25'))).toMatchObject({
      code: 'on_hold',
    });
    const early = { sold: refuse('wrong_stage', 'Not yet.'), passed: refuse('wrong_stage', 'Not yet.') };
    expect(decideOutcome(scene({ bidsRun: early }), boughtBack('7.25'))).toBe(early.sold);
  });

  it('is named where the buyer number is the seller’s own', () => {
    const decided = decideOutcome(scene({ buyer: seller }), sold('7.25'));
    expect(decided).toMatchObject({ field: 'seller_buys', message: expect.stringContaining('enter 0 as the buyer') });
  });
});

/** Whatever a drawer is counted at, every total of the balance and of the closing report is that of the journal. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { journalProblems } from '#db/account/check.ts';
import { drawerOverShort } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { cents, formatMoney } from '#lib/money/money.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';
import { balanceProblems, closingReportProblems } from '#tests/support/money-laws.ts';

const saleId = 1;
const METHODS = ['cash', 'check', 'card', 'other'] as const;

/** A float, what is taken by each method, and what is counted of it at the close. */
const evening = fc.record({
  float: fc.nat(9),
  raffle: fc.array(fc.record({ method: fc.constantFrom(...METHODS), cents: fc.integer({ min: 1, max: 99_999 }) }), {
    maxLength: 4,
  }),
  buyerPays: fc.constantFrom('cash', 'check', 'card'),
  taken: fc.nat(3),
  quarters: fc.nat(900),
  beside: fc.record({ checks: counted(), cards: counted(), other: counted() }),
});

function counted() {
  return fc.option(fc.nat(99_999), { nil: null });
}

type Evening = typeof evening extends fc.Arbitrary<infer E> ? E : never;

/** Lot 1 of seller 1, ten raccoons, sold to buyer 10 at 20.00; the seller is paid by check. */
function closedAt({ float, raffle, buyerPays, taken, quarters, beside }: Evening): Hall {
  const hall = openHall();
  const { must } = hall;
  const drawer = (kind: 'opened' | 'taken' | 'closed', denomination: string, pieces: number, over = {}) =>
    must('drawer.record', { saleId, kind, pieces: [{ denomination, pieces: pieces ? String(pieces) : '' }], ...over });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '20.00', buyerNo: 10 }, 'block');
  must('sale.stage', { saleId, stage: 'settling', reason: '' });
  drawer('opened', '20.00', float);
  for (const { method, cents: amount } of raffle) {
    must('taking.record', { saleId, kind: 'raffle', method, amount: formatMoney(cents(amount)) }, 'till');
  }
  must('invoice.issue', { saleId, buyerNo: 10 }, 'till');
  must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: buyerPays, amount: '223.65' }, 'till');
  if (taken > 0) drawer('taken', '1.00', taken);
  const said = Object.entries(beside).map(([name, amount]) => [
    name,
    amount === null ? '' : formatMoney(cents(amount)),
  ]);
  drawer('closed', '0.25', quarters, { ...Object.fromEntries(said), note: 'counted twice' });
  must('settlement.issue', { saleId, sellerNo: 1 }, 'payout');
  must('check.write', { saleId, sellerNo: null, firstNumber: 1, seen: 1 }, 'payout');
  must('sale.stage', { saleId, stage: 'closed', reason: '', answered: [...CLOSE_QUESTIONS] });
  return hall;
}

describe('a sale that was closed with the drawer over or short', () => {
  it('has every total of its balance and of its closing report in the journal (law)', () => {
    let off = 0;
    fc.assert(
      fc.property(evening, (drawn) => {
        const { book } = closedAt(drawn);
        if (drawerOverShort(book, saleId) !== 0) off += 1;
        expect(balanceProblems(book, saleId)).toEqual([]);
        expect(closingReportProblems(book, saleId)).toEqual([]);
        expect(journalProblems(book, saleId, saleFacts(book, saleId))).toEqual([]);
        expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
        book.close();
      }),
      { numRuns: 12 },
    );
    expect(off).toBeGreaterThan(6);
  });
});

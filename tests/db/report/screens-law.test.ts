/** What the screens show, against the same over a copy of the book: after any acts, in any order, the two are one. */
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buyerByNumber, type SaleRow, saleById } from '#db/book/find.ts';
import { type Book, bookToRead } from '#db/book/open.ts';
import { owingOf } from '#db/buyer/accounts.ts';
import { handOverView } from '#db/buyer/handover.ts';
import { buyerView, invoicesShown, tillView } from '#db/buyer/queries.ts';
import { drawerView } from '#db/drawer/queries.ts';
import { nextLots, openLots } from '#db/lot/open-lots.ts';
import { endsOfLots, paperGround, paperLots } from '#db/lot/papers.ts';
import { lotCard, lotsOnHold } from '#db/lot/queries.ts';
import { bidsOfLot, leftView } from '#db/outcome/bids.ts';
import { blockView } from '#db/outcome/block-view.ts';
import { boardView, sellerBoard } from '#db/outcome/board-view.ts';
import { calledSoFar } from '#db/outcome/called.ts';
import { writtenView } from '#db/outcome/written-view.ts';
import { checksOfSale } from '#db/payment/queries.ts';
import { pricedSeasons } from '#db/price/season-prices.ts';
import { balanceView, closingFacts, closingsOf, drawerOverShort, revenueOfSale } from '#db/report/closing.ts';
import { heldOverView, saleBefore } from '#db/report/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { saleView, termsView } from '#db/sale/views.ts';
import { intakeView, sellerView } from '#db/seller/queries.ts';
import { payoutSeller, payoutSellerView } from '#db/settlement/payout.ts';
import { payoutView } from '#db/settlement/payout-view.ts';
import { logView } from '#db/worker/log-view.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { sumCents, ZERO } from '#lib/money/money.ts';
import { standingBids } from '#lib/outcome/bid.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { revenueOf, revenuePaper, saleRevenue } from '#lib/report/revenue.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { type Act, act, anyAct, payoutAct, stationOf, tillAct } from '#tests/support/any-acts.ts';
import { assertUntilSeen } from '#tests/support/assert-until-seen.ts';
import { GOODS } from '#tests/support/hall.ts';
import { soldSale } from '#tests/support/sales.ts';

const DRAWN_ON = '2026-03-01';
/** By hand a thousand: `PELTRY_SCREENS_RUNS=1000`. */
const RUNS = Number.parseInt(process.env.PELTRY_SCREENS_RUNS ?? '3', 10);
const LOOK_EACH = 10;

/** Every view of a sale that a screen shows, with those of each seller and buyer number. */
function shown(book: Book, sale: SaleRow) {
  const sellerNos = [1, 2, 3];
  const buyerNos = [10, 11, 12, 13];
  return {
    ...{
      block: blockView(book, sale),
      board: boardView(book, { sale, now: `${DRAWN_ON}T12:00:00Z` }),
      left: leftView(book, sale),
    },
    sellerBoards: sellerNos.map((sellerNo) => sellerBoard(book, sale, sellerNo)),
    written: writtenView(book, sale, `${DRAWN_ON}T12:00:00Z`),
    ...{ intake: intakeView(book, sale), held: lotsOnHold(book, sale.id) },
    intakeSellers: sellerNos.map((sellerNo) => sellerView(book, sale, sellerNo)),
    ...{ till: tillView(book, sale), invoices: invoicesShown(book, sale.id, buyerNos), drawer: drawerView(book, sale) },
    buyers: buyerNos.map((buyerNo) => buyerView(book, sale, buyerNo)),
    handOver: buyerNos.map((buyerNo) => handOverView(book, sale.id, buyerNo)),
    ...{ payout: payoutView(book, sale), balance: balanceView(book, sale), checks: checksOfSale(book, sale.id) },
    payoutSellers: sellerNos.map((sellerNo) => payoutSellerView(book, sale, { sellerNo, drawnOn: DRAWN_ON })),
    ...{ revenue: revenueOfSale(book, sale, DRAWN_ON), closings: closingsOf(book, sale.id) },
    after: heldOverView(book, sale, { drawnOn: DRAWN_ON, page: undefined }),
    ...{ sale: saleView(book, sale), terms: termsView(book, sale), lots: endsOfLots(book, sale.id) },
    log: logView(book, { saleId: sale.id }),
    cards: openLots(book, sale).map(({ lotNo }) => lotCard(book, sale, lotNo)),
    papers: paperLots(book, sale),
  };
}

function prices(book: Book) {
  return pricedSeasons(book, 1).map(({ season, goods }) => goods.map(({ range, parts }) => ({ season, range, parts })));
}

function salesOf(book: Book): SaleRow[] {
  return [1, 2].flatMap((saleId) => saleById(book, saleId) ?? []);
}

function look(book: Book): void {
  const anew = bookToRead('a copy', new Database(book.sqlite.serialize()));
  for (const sale of salesOf(book)) expect(shown(book, sale)).toEqual(shown(anew, sale));
  expect(prices(book)).toEqual(prices(anew));
  anew.close();
}

/** What SQLite adds up and puts in order, against the sums and the order of lib/. */
function holdToLib(book: Book, sale: SaleRow, facts: SaleFacts): void {
  const lotOf = new Map(facts.lots.map((lot) => [lot.lotNo, lot]));
  const sold = facts.outcomes.filter(({ kind }) => kind === 'sold');
  const amounts = sold.map(({ lotNo, priceCents }) => lotAmount(priceCents ?? ZERO, lotOf.get(lotNo) ?? LOT_ITSELF));
  expect(calledSoFar(book, sale.id)).toMatchObject({ sold: sold.length, totalCents: sumCents(amounts) });
  const accounts = buyerAccounts(facts).map(({ buyerNo, paidCents, owingCents, invoice }) => {
    const { lots, totalCents } = invoice;
    return { buyerNo, paidCents, owingCents, lots, totalCents };
  });
  const rows = tillView(book, sale).rows.map(({ buyerNo, paidCents, owingCents, lots, totalCents }) => {
    return { buyerNo, paidCents, owingCents, lots, totalCents };
  });
  expect(rows).toEqual(accounts);
  for (const { buyerNo, owingCents } of accounts) {
    const row = buyerByNumber(book, sale.id, buyerNo);
    expect(row && owingOf(book, sale, row)).toBe(owingCents);
    expect(buyerView(book, sale, buyerNo)).toMatchObject(rows.find((one) => one.buyerNo === buyerNo) ?? {});
  }
  expect(nextLots(book, sale, 3)).toEqual(openLots(book, sale).slice(0, 3));
  expect(boardView(book, { sale, now: `${DRAWN_ON}T12:00:00Z` }).left).toBe(openLots(book, sale).length);
  const byLot = openLots(book, sale).flatMap(({ lotId }) => standingBids(bidsOfLot(book, lotId)));
  const left = byLot.filter(({ kind }) => kind === 'left').map(({ id }) => id);
  expect(leftView(book, sale).bids.map(({ bidId }) => bidId)).toEqual(left);
}

const LOT_ITSELF = { by: 'lot', count: null, weightThousandths: null } as const;

/** The same by the functions that a command goes by. */
function lookOtherwise(book: Book): void {
  for (const sale of salesOf(book)) {
    const facts = saleFacts(book, sale.id);
    holdToLib(book, sale, facts);
    expect(balanceView(book, sale).lines).toEqual(closingLines(closingFacts(book, sale.id)));
    const rows = payoutView(book, sale).rows.map((row) => ({
      ...{ no: row.sellerNo, owing: row.owingCents, waits: row.waitsFor },
    }));
    const sellers = payoutView(book, sale).rows.flatMap(({ sellerNo }) => payoutSeller(book, sale, sellerNo) ?? []);
    expect(rows).toEqual(
      sellers.map(({ sellerNo, accounts, waitsFor }) => ({
        ...{ no: sellerNo, waits: waitsFor, owing: sumCents(accounts.map(({ owingCents }) => owingCents)) },
      })),
    );
    const goodsNames = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
    const now = { goodsNames, ...saleRevenue(facts, drawerOverShort(book, sale.id)) };
    // A kind of takings is a row where this sale or the one before has any.
    const earlier = saleBefore(book, sale);
    const before = earlier
      ? { heldOn: earlier.heldOn, revenue: revenueOf(saleFacts(book, earlier.id), drawerOverShort(book, earlier.id)) }
      : null;
    const paper = revenuePaper(paperGround(book, sale, DRAWN_ON), now, before);
    const [sums, goods] = revenueOfSale(book, sale, DRAWN_ON).tables;
    expect([sums?.rows.map(([, own]) => own), goods]).toEqual([
      paper.tables[0]?.rows.map(([, own]) => own),
      paper.tables[1],
    ]);
  }
}

const ids = fc.constantFrom(1, 2, 3);
const saleId = fc.constantFrom(1, 1, 2);
const lotNo = fc.constantFrom('1', '2', '3', '5');

/** What else changes something that is shown, beside the acts of the stations. */
const around: fc.Arbitrary<Act> = fc.oneof(
  act('lot.skip', fc.record({ saleId, lotNo, wholeSeller: fc.boolean() })),
  act('lot.place', fc.record({ saleId, lotNo, before: fc.constantFrom(null, '1', '3') })),
  act('sale.order', fc.record({ saleId, order: fc.constantFrom('lot', 'seller', 'goods', 'hand') })),
  act(
    'person.amend',
    fc.record({
      personId: ids,
      name: fc.constantFrom('Ada Birch', 'Ada Quill'),
      memberUntil: fc.constantFrom('', '2026-12-31'),
    }),
  ),
  act(
    'goods.amend',
    fc
      .record({ saleId, name: fc.constantFrom('Raccoon', 'Coon'), reason: fc.constant('its name') })
      .map((said) => ({ ...GOODS[0], ...said })),
  ),
  act('payout.policy', fc.record({ saleId, sellersWait: fc.boolean(), statementDays: fc.constant(10) })),
);

/** Acts that are always refused would show nothing; these are among the commonest. */
const WANTED = ['lot.add', 'outcome.correct', 'outcome.record', 'outcome.reopen', 'payment.record', 'settlement.issue'];

describe('what the screens show', () => {
  it('is what a fresh process shows over a copy of the book, after any acts', () => {
    const seen = new Set<string>();
    const drawn = fc.oneof({ weight: 3, arbitrary: anyAct }, tillAct, payoutAct([]), around);
    assertUntilSeen(
      fc.property(fc.array(drawn, { minLength: 60, maxLength: 60 }), (acts) => {
        const { book, give, must } = soldSale();
        must('sale.handover', { saleId: 1, unpaid: true });
        look(book);
        for (const [at, one] of acts.entries()) {
          const { command, input } = one;
          const answer = give(command, input(book), { station: stationOf(one) });
          if (answer.ok) seen.add(command);
          if (at % LOOK_EACH === LOOK_EACH - 1) look(book);
        }
        lookOtherwise(book);
        book.close();
      }),
      { numRuns: RUNS, seen, wanted: WANTED },
    );
    expect([...seen]).toEqual(expect.arrayContaining(WANTED));
  });
});

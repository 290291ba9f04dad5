/** What the screens keep of a sale, against the same worked out anew: after any acts, in any order, the two are one. */
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STATIONS } from '#db/command.ts';
import { findCommand } from '#db/commands/index.ts';
import { type Book, bookToRead } from '#db/open.ts';
import { balanceView } from '#db/queries/balance-view.ts';
import { closingFacts } from '#db/queries/closing-facts.ts';
import { type SaleRow, saleById } from '#db/queries/find.ts';
import { glance } from '#db/queries/glance.ts';
import { heldOverView } from '#db/queries/held-over-view.ts';
import { lotsOnHold } from '#db/queries/intake-lots.ts';
import { keptOfSale } from '#db/queries/kept-by-house.ts';
import { leftView } from '#db/queries/left-view.ts';
import { openLots, openLotsOnScreen } from '#db/queries/open-lots.ts';
import { paperGround } from '#db/queries/paper-lots.ts';
import { payoutSellers } from '#db/queries/payout-scene.ts';
import { payoutView } from '#db/queries/payout-view.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import { pricedSeasons } from '#db/queries/season-prices.ts';
import { tillView } from '#db/queries/till-view.ts';
import { buyerAccounts } from '#lib/buyer-account.ts';
import { keptByGoods, keptOf } from '#lib/closing/kept.ts';
import { keptPaper } from '#lib/closing/kept-paper.ts';
import { closingLines } from '#lib/closing/lines.ts';
import { sumCents } from '#lib/money.ts';
import { type Act, act, anyAct, payoutAct, tillAct } from '#tests/support/any-acts.ts';
import { assertUntilSeen } from '#tests/support/assert-until-seen.ts';
import { GOODS } from '#tests/support/hall.ts';
import { soldSale } from '#tests/support/two-sales.ts';

const DRAWN_ON = '2026-03-01';
/** By hand a thousand: `PELTRY_KEPT_RUNS=1000`. */
const RUNS = Number.parseInt(process.env.PELTRY_KEPT_RUNS ?? '3', 10);
const LOOK_EACH = 10;

/** Everything that is kept of one sale, as the screens show it. */
function shown(book: Book, sale: SaleRow) {
  return {
    payout: payoutView(book, sale),
    till: tillView(book, sale),
    balance: balanceView(book, sale),
    kept: keptOfSale(book, sale, DRAWN_ON),
    after: heldOverView(book, sale, { drawnOn: DRAWN_ON, page: undefined }),
    open: openLotsOnScreen(book, sale),
    glance: glance(book, sale, 0),
    held: lotsOnHold(book, sale.id),
    left: leftView(book, sale),
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

/** The same by the functions that a command goes by, which keep nothing. */
function lookOtherwise(book: Book): void {
  for (const sale of salesOf(book)) {
    const facts = saleFacts(book, sale.id);
    expect(balanceView(book, sale).lines).toEqual(closingLines(closingFacts(book, sale.id)));
    expect(openLotsOnScreen(book, sale)).toEqual(openLots(book, sale));
    const owing = tillView(book, sale).rows.map(({ buyerNo, owingCents }) => ({ buyerNo, owingCents }));
    expect(owing).toEqual(buyerAccounts(facts).map(({ buyerNo, owingCents }) => ({ buyerNo, owingCents })));
    const rows = payoutView(book, sale).rows.map((row) => ({
      no: row.sellerNo,
      owing: row.owingCents,
      waits: row.waitsFor,
    }));
    const sellers = payoutSellers(book, sale).map(({ sellerNo, accounts, waitsFor }) => ({
      ...{ no: sellerNo, waits: waitsFor, owing: sumCents(accounts.map(({ owingCents }) => owingCents)) },
    }));
    expect(rows).toEqual(sellers);
    const goodsNames = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
    const now = { goodsNames, kept: keptOf(facts), byGoods: keptByGoods(facts) };
    const paper = keptPaper(paperGround(book, sale, DRAWN_ON), now, null);
    const [sums, goods] = keptOfSale(book, sale, DRAWN_ON).tables;
    expect([sums?.rows.map(([, own]) => own), goods]).toEqual([
      paper.tables[0]?.rows.map(([, own]) => own),
      paper.tables[1],
    ]);
  }
}

const ids = fc.constantFrom(1, 2, 3);
const saleId = fc.constantFrom(1, 1, 2);
const lotNo = fc.constantFrom('1', '2', '3', '5');

/** What else changes something under what is kept, beside the acts of the stations. */
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

describe('what the screens keep', () => {
  it('is what they would work out anew, after any acts', () => {
    const seen = new Set<string>();
    const drawn = fc.oneof({ weight: 3, arbitrary: anyAct }, tillAct, payoutAct, around);
    assertUntilSeen(
      fc.property(fc.array(drawn, { minLength: 60, maxLength: 60 }), (acts) => {
        const { book, give, must } = soldSale();
        must('sale.handover', { saleId: 1, unpaid: true });
        look(book);
        for (const [at, { command, input }] of acts.entries()) {
          const answer = give(command, input(book), { station: findCommand(command)?.stations[0] ?? STATIONS[0] });
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

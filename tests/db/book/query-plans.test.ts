/** Every statement that the hot views and entries prepare: none of them goes through a whole large table. */
import { describe, expect, it } from 'vitest';
import { type SaleRow, saleById } from '#db/book/find.ts';
import { type Book, openBookInMemory } from '#db/book/open.ts';
import { buyerFile } from '#db/buyer/files.ts';
import { handOverView } from '#db/buyer/handover.ts';
import { buyerView, tillView } from '#db/buyer/queries.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { endsOfLots, numbersOfLots } from '#db/lot/papers.ts';
import { lotsOnHold } from '#db/lot/queries.ts';
import { leftView } from '#db/outcome/bids.ts';
import { blockView } from '#db/outcome/block-view.ts';
import { boardView, sellerBoard } from '#db/outcome/board-view.ts';
import { pricedSeasons } from '#db/price/season-prices.ts';
import { balanceView, revenueOfSale } from '#db/report/closing.ts';
import { heldOverView } from '#db/report/queries.ts';
import { saleView } from '#db/sale/views.ts';
import { intakeView, sellerView } from '#db/seller/queries.ts';
import { payoutSellerView } from '#db/settlement/payout.ts';
import { payoutView } from '#db/settlement/payout-view.ts';
import { sellerFile } from '#db/settlement/sheets.ts';
import { lotNo } from '#lib/lot/number.ts';
import { bigFolder } from '#tests/support/big-folder.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';

/** Tables that have a row or a few for each sale, season or book are read whole where that is what is asked. */
const SMALL = /\bSCAN (sale|goods|association|price_list_row|price_setting|worker|commission_override)\b/;
/** A walk along an index that ends after the first rows it finds. */
const ENDS_SOON = /ORDER BY (seq|"(standing_)?outcome"\."id") desc limit/i;

interface Noted {
  readonly sql: string;
  readonly plan: string;
}

/** Listens to what is prepared from now on; the statements are prepared as ever. */
function noteStatements({ sqlite }: Book): Set<string> {
  const seen = new Set<string>();
  const prepare = sqlite.prepare.bind(sqlite);
  Object.assign(sqlite, {
    prepare: (sql: string) => {
      seen.add(sql);
      return prepare(sql);
    },
  });
  return seen;
}

function scansOf({ sqlite }: Book, statements: Iterable<string>): Noted[] {
  return [...statements].flatMap((sql) => {
    const explained = sqlite.prepare(`EXPLAIN QUERY PLAN ${sql}`);
    const names = [...sql.matchAll(/:(\w+)/g)].map(([, name]) => [name, 1] as const);
    const marks = sql.match(/\?/g)?.map(() => 1) ?? [];
    const rows = explained.all(...marks, ...(names.length > 0 ? [Object.fromEntries(names)] : [])) as {
      readonly detail: string;
    }[];
    const scans = rows.map(({ detail }) => detail).filter((detail) => /^SCAN (?!CONSTANT|\d+ CONSTANT)/.test(detail));
    const large = scans.filter((detail) => !SMALL.test(detail));
    return large.length === 0 || ENDS_SOON.test(sql) ? [] : [{ sql, plan: large.join('; ') }];
  });
}

function aSale(): { readonly book: Book; readonly sale: SaleRow } {
  const book = openBookInMemory();
  importFolder(book, bigFolder({ lots: 60, called: 20, sellers: 5, buyers: 7 }), {
    worker: 'Ada',
    at: '2026-02-28T10:00:00Z',
  });
  const sale = saleById(book, 1);
  if (!sale) throw new Error('no sale');
  return { book, sale };
}

const VIEWS: Readonly<Record<string, (book: Book, sale: SaleRow) => unknown>> = {
  'the Block': blockView,
  'the Board': (book, sale) => boardView(book, { sale, now: '' }),
  'left bids': leftView,
  'a seller on the Board': (book, sale) => sellerBoard(book, sale, 2),
  'the check-in table': intakeView,
  'a seller at the check-in table': (book, sale) => sellerView(book, sale, 2),
  'lots on hold': (book, sale) => lotsOnHold(book, sale.id),
  'the Till': tillView,
  "a buyer's account": (book, sale) => buyerView(book, sale, 3),
  "a buyer's papers": (book, sale) => buyerFile(book, sale.id, 3),
  'handing over': (book, sale) => handOverView(book, sale.id, 3),
  "a seller's sheet": (book, sale) => sellerFile(book, sale.id, 2),
  'the treasurer’s table': payoutView,
  'one seller number at payout': (book, sale) => payoutSellerView(book, sale, { sellerNo: 2, drawnOn: '2026-03-01' }),
  'the balance': balanceView,
  'what the house keeps': (book, sale) => revenueOfSale(book, sale, '2026-03-01'),
  'what went home unsold': (book, sale) => heldOverView(book, sale, { drawnOn: '2026-03-01', page: undefined }),
  'the sale’s page': saleView,
  'the tickets': (book, sale) => [numbersOfLots(book, sale.id, { sellerNo: 2 }), endsOfLots(book, sale.id)],
  'the prices': (book) => pricedSeasons(book, 1).map(({ goods }) => goods.length),
};

type Entry = { [N in CommandName]: readonly [command: N, input: InputOf<N>] }[CommandName];

const ENTRIES: readonly Entry[] = [
  ['lot.add', { saleId: 1, sellerNo: 1, goods: 'muskrat', count: '3' }],
  ['outcome.record', { saleId: 1, lotNo: lotNo('30'), kind: 'sold', price: '9.25', buyerNo: 3 }],
  [
    'payment.record',
    { ...{ saleId: 1, direction: 'in', buyerNo: 3, method: 'cash', amount: '90000.00' }, answered: ['more_than_owed'] },
  ],
  ['invoice.issue', { saleId: 1, buyerNo: 3 }],
  ['handover.record', { saleId: 1, buyerNo: 3, lots: ['30'], pieces: '31', takenBy: 'Dot' }],
];

describe('the plan of every statement', () => {
  it.each(Object.entries(VIEWS))('of %s finds its rows by an index', (_name, view) => {
    const { book, sale } = aSale();
    const seen = noteStatements(book);
    view(book, sale);
    expect(seen.size).toBeGreaterThan(0);
    expect(scansOf(book, seen)).toEqual([]);
    book.close();
  });

  it.each(Object.entries(VIEWS))('of %s after an entry finds what was touched by an index', (_name, view) => {
    const { book, sale } = aSale();
    view(book, sale);
    const seen = noteStatements(book);
    for (const [command, input] of ENTRIES) accepted(giveTo(book, command, { input }));
    view(book, sale);
    expect(scansOf(book, seen)).toEqual([]);
    book.close();
  });

  it('of the entries that are given most finds its rows by an index', () => {
    const { book } = aSale();
    const seen = noteStatements(book);
    for (const [command, input] of ENTRIES) accepted(giveTo(book, command, { input }));
    expect(seen.size).toBeGreaterThan(10);
    expect(scansOf(book, seen)).toEqual([]);
    book.close();
  });

  it('would show a statement that goes through all lots', () => {
    const { book } = aSale();
    expect(scansOf(book, ["SELECT * FROM lot WHERE note = 'x'"])).toHaveLength(1);
    expect(scansOf(book, ['SELECT * FROM lot WHERE sale_id = ?'])).toEqual([]);
    book.close();
  });
});

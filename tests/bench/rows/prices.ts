/** What the price pages read out of a book of many seasons, beside SQLite's own pass over the same rows. */
import { type Book, openBook } from '#db/book/open.ts';
import { pricedSeasons } from '#db/price/season-prices.ts';
import { newFile } from '#tests/bench/big-book.ts';
import { median, percentile } from '#tests/bench/figures.ts';
import { type Bench, type Line, timed } from '#tests/bench/row.ts';
import { shown } from '#tests/bench/table.ts';
import { hallOf } from '#tests/support/hall.ts';
import { fillYears } from '#tests/support/prices.ts';

const OWN_PASS = `
  SELECT sale.season, goods.goods, min(price_cents), max(price_cents), sum(price_cents * coalesce(lot.count, 1))
  FROM outcome JOIN lot ON lot.id = outcome.lot_id JOIN goods ON goods.id = lot.goods_id JOIN sale ON sale.id = lot.sale_id
  WHERE outcome.kind = 'sold' GROUP BY sale.season, goods.goods`;

const row = (bench: Bench): Line[] => {
  const sizes = bench.short ? [1, 2] : [1, 10, 30];
  const lots = bench.short ? 300 : 5000;
  return sizes.flatMap((seasons) => measure(bench, { seasons, lots }));
};

export default row;

function measure(bench: Bench, { seasons, lots }: { seasons: number; lots: number }): Line[] {
  const file = newFile();
  fillYears(file, { seasons, lots });
  keepCalling(file, bench.runs * 2 * TOUCHES);
  const runs = Array.from({ length: bench.runs }, () => once(file));
  const name = `${seasons} seasons of ${lots} lots`;
  const pages = [
    { page: 'all goods of the newest season', pick: (run: Run) => run.season },
    { page: 'one kind of goods over all seasons', pick: (run: Run) => run.goods },
  ];
  return pages.flatMap(({ page, pick }): Line[] => [
    {
      what: `price table, ${name}: ${page}, first read`,
      against: "the time of SQLite's own pass over the same rows",
      figures: runs.map((run) => pick(run).first / run.own),
      unit: '×',
      seen: `${shown(median(runs.map((run) => pick(run).first)))} ms, SQLite ${shown(median(runs.map((run) => run.own)))} ms`,
    },
    {
      what: `price table, ${name}: ${page}, p95 of a hundred reads with a new price before each tenth`,
      against: '–',
      figures: runs.map((run) => percentile(pick(run).reads, 0.95)),
      unit: 'ms',
      target: { atMost: 50 },
      seen: `median ${shown(median(runs.flatMap((run) => pick(run).reads)))} ms`,
    },
  ]);
}

interface Reads {
  readonly first: number;
  readonly reads: readonly number[];
}

interface Run {
  readonly own: number;
  readonly season: Reads;
  readonly goods: Reads;
}

const TOUCHES = 10;

const newestSale = ({ sqlite }: Book) =>
  sqlite.prepare('SELECT id FROM sale ORDER BY held_on DESC LIMIT 1').pluck().get() as number;

/** Lots of the newest sale that are still to be called, so that each touch is a price taken down at the door. */
function keepCalling(file: string, many: number): void {
  const book = openBook(file);
  const newest = newestSale(book);
  book.sqlite.prepare(`UPDATE sale SET stage = 'selling' WHERE id = ?`).run(newest);
  const { must } = hallOf(book, newest);
  for (let lot = 0; lot < many; lot += 1) {
    must('lot.add', { saleId: newest, sellerNo: 1 + (lot % 10), goods: 'raccoon', count: '12' });
  }
  book.close();
}

/** Each run opens the book anew, as a server does that was just started. */
function once(file: string): Run {
  const own = openBook(file);
  const ownTook = timed(() => own.sqlite.prepare(OWN_PASS).all());
  own.close();
  return {
    own: ownTook,
    season: reads(file, (seasons) => seasons[0]?.goods),
    goods: reads(file, (seasons) => seasons.map((season) => season.of('raccoon'))),
  };
}

/** A hundred reads, with a price taken down before each tenth: what was kept of its season is worked out anew. */
function reads(file: string, read: (seasons: ReturnType<typeof pricedSeasons>) => unknown): Reads {
  const book = openBook(file);
  const first = timed(() => read(pricedSeasons(book)));
  const saleId = newestSale(book);
  const { must } = hallOf(book, saleId);
  const open = book.sqlite.prepare(
    'SELECT lot_number FROM lot WHERE sale_id = ? AND id NOT IN (SELECT lot_id FROM outcome) ORDER BY lot_number',
  );
  const lots = open.pluck().all(saleId) as number[];
  const taken = Array.from({ length: 100 }, (_, at) => {
    const lot = lots[at / TOUCHES];
    const price = {
      kind: 'sold',
      price: '13.25',
      buyerNo: 1,
      answered: ['price_unusual', 'buyer_not_cleared'],
    } as const;
    if (lot !== undefined) must('outcome.record', { saleId, lotNo: String(lot), ...price });
    return timed(() => read(pricedSeasons(book)));
  });
  book.close();
  return { first, reads: taken };
}

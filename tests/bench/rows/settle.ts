/** A whole sale settled: its facts read out of the book and every seller number settled, beside SQLite's own sum. */
import { saleFacts } from '#db/sale/facts.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { bookOf, sizeOf } from '#tests/bench/big-book.ts';
import { doubling, median } from '#tests/bench/figures.ts';
import { type Bench, type Line, repeated, timed } from '#tests/bench/row.ts';
import { shown } from '#tests/bench/table.ts';

const OWN_SUM = `
  SELECT lot.seller_id, count(*), sum(outcome.price_cents * coalesce(lot.count, 1)) FROM lot
  JOIN outcome ON outcome.lot_id = lot.id
  WHERE lot.sale_id = 1 AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)
  GROUP BY lot.seller_id`;

/** The most that reading and settling so many lots may take, all sums in decimal.js. */
const TARGETS_MS: Readonly<Record<number, number>> = { 2000: 30, 100000: 1500 };

const row = (bench: Bench): Line[] => {
  const sizes = bench.short ? [1000, 2000] : [2000, 10_000, 100_000];
  const measured = sizes.map((lots) => ({ lots, pairs: measure(bench, lots) }));
  const largest = measured.at(-1);
  const each = measured.map(({ lots, pairs }): Line => {
    const ours = pairs.map((pair) => pair.ours);
    return {
      what: `a whole sale settled, ${lots} lots`,
      against: "the time of SQLite's own sum by seller over the same rows",
      figures: pairs.map((pair) => pair.ours / pair.bare),
      unit: '×',
      seen: `${shown(median(ours))} ms, SQLite ${shown(median(pairs.map((pair) => pair.bare)))} ms`,
    };
  });
  const growth: Line = {
    what: `a whole sale settled: twice the lots, from ${sizes[0]} to ${sizes.at(-1)}`,
    against: 'the time of half of them',
    figures: (largest?.pairs ?? []).map((_, run) =>
      doubling(measured.map(({ lots, pairs }) => ({ size: lots, took: pairs[run]?.ours ?? 0 }))),
    ),
    unit: '×',
    target: { atMost: 2.1 },
    seen: '',
  };
  const byTheClock = measured
    .filter(({ lots }) => TARGETS_MS[lots] !== undefined)
    .map(
      ({ lots, pairs }): Line => ({
        what: `a whole sale settled, ${lots} lots, by the clock`,
        against: '–',
        figures: pairs.map(({ ours }) => ours),
        unit: 'ms',
        target: { atMost: TARGETS_MS[lots] ?? 0 },
        seen: '',
      }),
    );
  return [...each, ...byTheClock, growth];
};

export default row;

function measure(bench: Bench, lots: number) {
  const book = bookOf(sizeOf(lots));
  const own = book.sqlite.prepare(OWN_SUM);
  const pairs = repeated(bench, () => ({
    ours: timed(() => settleSale(saleFacts(book, 1))),
    bare: timed(() => own.all()),
  }));
  book.close();
  return pairs;
}

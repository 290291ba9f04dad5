/** The afternoon at a glance: how many lots are done and left, how fast it goes, what it brought so far. */
import type { By, OutcomeKind } from '#lib/facts.ts';
import { addCents, type Cents, cents, showMoney, ZERO } from '#lib/money.ts';
import { LOTS_LOOKED_AT, type Pace, paceOf } from '#lib/pace.ts';
import { lotAmount } from '#lib/quantity.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { keptAlong, newestOutcomeId } from './kept.ts';

export interface Glance {
  readonly sold: number;
  readonly passed: number;
  readonly withdrawn: number;
  readonly left: number;
  readonly pace: Pace | null;
  /** What the sold lots brought, with commas between the thousands. */
  readonly total: string;
}

export function glance(book: Book, sale: Pick<SaleRow, 'id'>, left: number): Glance {
  const { many, totalCents, newestMs } = keptAlong(book, `glance ${sale.id}`, {
    make: () => counted(book, sale.id, NOTHING),
    go: (before) => counted(book, sale.id, before),
  });
  return { ...many, left, pace: paceOf(newestMs, left), total: showMoney(totalCents) };
}

interface Counted {
  readonly many: Readonly<Record<OutcomeKind, number>>;
  readonly totalCents: Cents;
  /** When the newest lots were called, no more of them than the pace is taken from. */
  readonly newestMs: readonly number[];
  readonly upTo: number;
}

const NOTHING: Counted = { many: { sold: 0, passed: 0, withdrawn: 0 }, totalCents: ZERO, newestMs: [], upTo: 0 };

type Cells = readonly [
  kind: OutcomeKind,
  priceCents: number | null,
  at: string,
  by: By,
  count: number | null,
  weightThousandths: number | null,
];

const FROM_THE_LOTS = `
  SELECT outcome.kind, outcome.price_cents, outcome.at, lot."by", lot.count, lot.weight_thousandths
  FROM lot CROSS JOIN outcome ON outcome.lot_id = lot.id
  WHERE lot.sale_id = :saleId AND outcome.id > :upTo AND outcome.kind <> 'reopened'
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)`;

/** From the newest outcomes on: of those since, there are few. */
const FROM_THE_OUTCOMES = FROM_THE_LOTS.replace(
  'FROM lot CROSS JOIN outcome ON outcome.lot_id = lot.id',
  'FROM outcome CROSS JOIN lot ON lot.id = outcome.lot_id',
);

function counted(book: Book, saleId: number, before: Counted): Counted {
  const text = before.upTo === 0 ? FROM_THE_LOTS : FROM_THE_OUTCOMES;
  const find = book.prepared(`glance from ${before.upTo === 0 ? 'the lots' : 'the outcomes'}`, () =>
    book.sqlite.prepare<[object], Cells>(text).raw(),
  );
  const many = { ...before.many };
  let { totalCents } = before;
  const newestMs = [...before.newestMs];
  const upTo = newestOutcomeId(book);
  for (const cells of find.all({ saleId, upTo: before.upTo }) as readonly Cells[]) {
    const [kind, priceCents, at, by, count, weightThousandths] = cells;
    many[kind] += 1;
    const measured = { by, count, weightThousandths };
    if (priceCents !== null) totalCents = addCents(totalCents, lotAmount(cents(priceCents), measured));
    newestMs.push(Date.parse(at));
  }
  return { many, totalCents, newestMs: newestMs.sort((a, b) => b - a).slice(0, LOTS_LOOKED_AT), upTo };
}

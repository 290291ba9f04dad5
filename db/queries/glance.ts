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
  by: By,
  count: number | null,
  weightThousandths: number | null,
  alike: number,
];

/** Of the outcomes since the last look, which stand in the file one behind the other; their lots are found by number. */
const STANDING = `
  FROM outcome CROSS JOIN lot ON lot.id = outcome.lot_id
  WHERE lot.sale_id = :saleId AND outcome.id > :upTo AND outcome.kind <> 'reopened'
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)`;

/** Lots that brought the same for as much are told once, with how many they are: an afternoon has many alike. */
const ALIKE = `
  SELECT outcome.kind, outcome.price_cents, lot."by", lot.count, lot.weight_thousandths, count(*) ${STANDING}
  GROUP BY 1, 2, 3, 4, 5`;

const NEWEST = `SELECT outcome.at ${STANDING} ORDER BY outcome.id DESC LIMIT ${LOTS_LOOKED_AT}`;

function counted(book: Book, saleId: number, before: Counted): Counted {
  const find = book.prepared('glance', () => book.sqlite.prepare<[object], Cells>(ALIKE).raw());
  const asked = { saleId, upTo: before.upTo };
  const many = { ...before.many };
  let { totalCents } = before;
  let since = 0;
  const upTo = newestOutcomeId(book);
  for (const cells of find.all(asked) as readonly Cells[]) {
    const [kind, priceCents, by, count, weightThousandths, alike] = cells;
    many[kind] += alike;
    since += alike;
    if (priceCents === null) continue;
    const amount = lotAmount(cents(priceCents), { by, count, weightThousandths });
    totalCents = addCents(totalCents, cents(amount * alike));
  }
  const newestMs = since === 0 ? before.newestMs : newest(book, asked, before);
  return { many, totalCents, newestMs, upTo };
}

function newest(book: Book, asked: { saleId: number; upTo: number }, before: Counted): readonly number[] {
  const find = book.prepared('glance at the newest', () => book.sqlite.prepare<[object], string>(NEWEST).pluck());
  const all = [...find.all(asked).map((at) => Date.parse(at)), ...before.newestMs];
  return all.sort((a, b) => b - a).slice(0, LOTS_LOOKED_AT);
}

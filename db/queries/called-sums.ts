/** What the called lots of a sale brought, added up outcome by outcome, so that none is read twice. */
import type { By, OutcomeKind } from '#lib/facts.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { addCents, type Cents, cents, subtractCents, ZERO } from '#lib/money.ts';
import type { Book } from '../open.ts';

type Cells = readonly [
  kind: OutcomeKind,
  priceCents: number | null,
  by: By,
  count: number | null,
  weightThousandths: number | null,
  alike: number,
  firstId: number,
];

/** Lots that brought the same for as much are told once, with how many they are: an afternoon has many alike. */
const ALIKE = `
  SELECT outcome.kind, outcome.price_cents, lot."by", lot.count, lot.weight_thousandths, count(*), min(outcome.id)
  FROM outcome CROSS JOIN lot ON lot.id = outcome.lot_id
  WHERE lot.sale_id = :saleId AND outcome.id > :behind AND outcome.id <= :to AND outcome.kind <> 'reopened'
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)
  GROUP BY 1, 2, 3, 4, 5`;

/** The newest outcome of a lot up to one of the book's, where a later one has taken its place. */
const REPLACED = `
  SELECT outcome.id, outcome.kind, outcome.price_cents, lot."by", lot.count, lot.weight_thousandths
  FROM outcome CROSS JOIN lot ON lot.id = outcome.lot_id
  WHERE outcome.lot_id = :lotId AND outcome.id <= :upTo AND +lot.sale_id = :saleId
    AND EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id AND later.id > :upTo)`;

type Replaced = readonly [id: number, kind: OutcomeKind | 'reopened', ...rest: unknown[]];

export class CalledSums {
  readonly many: Record<OutcomeKind, number> = { sold: 0, passed: 0, withdrawn: 0 };
  totalCents: Cents = ZERO;
  /** Before this row id no outcome of the sale stands; infinite while there is none. */
  firstId = Number.POSITIVE_INFINITY;
  /** Outcomes that were taken off: one that was replaced never stands again. */
  readonly #gone = new Set<number>();
  readonly #book: Book;
  readonly #saleId: number;

  constructor(book: Book, saleId: number) {
    this.#book = book;
    this.#saleId = saleId;
  }

  /** Adds what stands among the outcomes behind one row id up to another. */
  addBetween(behind: number, to: number): void {
    const find = this.#book.prepared('called lots alike', () =>
      this.#book.sqlite.prepare<[object], Cells>(ALIKE).raw(),
    );
    for (const cells of find.all({ saleId: this.#saleId, behind, to })) {
      const [kind, , , , , alike, firstId] = cells;
      this.many[kind] += alike;
      this.firstId = Math.min(this.firstId, firstId);
      this.totalCents = addCents(this.totalCents, cents(amountOf(cells) * alike));
    }
  }

  /** Whether an outcome of this lot was added, up to a row id, that no longer stands. */
  counts(lotId: number, upTo: number): boolean {
    return this.#replaced(lotId, upTo) !== undefined;
  }

  /** Takes that off. */
  takeOff(lotId: number, upTo: number): void {
    const replaced = this.#replaced(lotId, upTo);
    if (!replaced) return;
    const [id, ...cells] = replaced;
    this.#gone.add(id);
    this.many[cells[0]] -= 1;
    this.totalCents = subtractCents(this.totalCents, amountOf(cells));
  }

  #replaced(lotId: number, upTo: number): [id: number, ...cells: Cells] | undefined {
    const find = this.#book.prepared('replaced outcome of a lot', () =>
      this.#book.sqlite.prepare<[object], Replaced>(REPLACED).raw(),
    );
    const found = find.get({ lotId, upTo, saleId: this.#saleId }) as [number, OutcomeKind | 'reopened'] | undefined;
    if (!found || found[1] === 'reopened' || this.#gone.has(found[0])) return undefined;
    return [...found, 1, found[0]] as unknown as [id: number, ...cells: Cells];
  }
}

function amountOf([, priceCents, by, count, weightThousandths]: Cells): Cents {
  return priceCents === null ? ZERO : lotAmount(cents(priceCents), { by, count, weightThousandths });
}

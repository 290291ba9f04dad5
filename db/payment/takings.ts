/** The takings of a sale as the Till lists them: those of today and those before, and what came in by kind. */
import { and, desc, eq, isNull } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { type Book, equals, query } from '#db/book/open.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { log, taking } from '#db/schema/index.ts';
import { localDay } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { type Cents, showMoney, sumOf } from '#lib/money/money.ts';
import { TAKING_KINDS, TAKING_WORDS, takenOf } from '#lib/payment/taking.ts';
import type { Taking } from '#lib/sale/facts.ts';

export interface TakingRow extends Pick<typeof taking.$inferSelect, 'kind' | 'method' | 'note' | 'at'> {
  readonly takingId: number;
  readonly amount: string;
  readonly worker: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
}

export interface TakingsView {
  /** The newest first, the voided ones too. */
  readonly today: readonly TakingRow[];
  readonly earlier: readonly TakingRow[];
  readonly sums: TakingSums;
}

/** What came in over the whole sale: by kind, without the kinds of which there is none, and in all. */
export interface TakingSums {
  readonly byKind: readonly { readonly words: string; readonly amount: string }[];
  readonly totalCents: Cents;
}

const voiding = alias(taking, 'voiding');

const findTakings = query(({ db }) =>
  db
    .select({
      takingId: taking.id,
      ...pick(taking, ['kind', 'method', 'amountCents', 'note', 'at']),
      worker: log.worker,
      voided: voiding.reason,
    })
    .from(taking)
    .innerJoin(log, eq(log.seq, taking.line))
    .leftJoin(voiding, eq(voiding.voidsId, taking.id))
    .where(and(equals(taking.saleId, 'saleId'), isNull(taking.voidsId)))
    .orderBy(desc(taking.id)),
);

/** `day` is today where the association is, as an ISO 8601 date. */
export function takingsView(book: Book, saleId: number, day: string): TakingsView {
  const timeZone = timeZoneOf(book);
  const found = findTakings(book).all({ saleId });
  const rows = found.map(({ amountCents, ...row }) => ({ ...row, amount: showMoney(amountCents as Cents) }));
  const isToday = ({ at }: TakingRow) => localDay(at, timeZone) === day;
  const standing = found.flatMap(({ kind, amountCents, voided }) =>
    voided === null ? [{ kind, amountCents: amountCents as Cents }] : [],
  );
  return {
    today: rows.filter(isToday),
    earlier: rows.filter((row) => !isToday(row)),
    sums: takingSums(standing),
  };
}

export function takingSums(takings: readonly Pick<Taking, 'kind' | 'amountCents'>[]): TakingSums {
  const byKind = TAKING_KINDS.filter((kind) => takings.some((one) => one.kind === kind));
  return {
    byKind: byKind.map((kind) => ({ words: TAKING_WORDS[kind], amount: showMoney(takenOf(takings, kind)) })),
    totalCents: sumOf(takings, 'amountCents'),
  };
}

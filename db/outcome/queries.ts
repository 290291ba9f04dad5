/** The outcome in force for a lot: the one that no later outcome replaces. */
import * as z from 'zod';
import { buyerById } from '#db/book/find.ts';
import { rowId } from '#db/book/inputs.ts';
import { lineWithKey } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { newestOutcome as newest, type outcome, standingOutcome as standing } from '#db/schema/index.ts';
import { showMoney } from '#lib/money/money.ts';

export type OutcomeRow = typeof outcome.$inferSelect;

const findNewest = query(({ db }) => db.select().from(newest).where(equals(newest.lotId, 'lotId')));

/** The newest outcome of a lot, whatever its kind: a lot that was reopened has a `reopened` one. */
export function newestOutcomeOf(book: Book, lotId: number): OutcomeRow | undefined {
  return findNewest(book).get({ lotId });
}

const findStanding = query(({ db }) => db.select().from(standing).where(equals(standing.lotId, 'lotId')));

/** The outcome that stands, or undefined for a lot that is still to be called. */
export function standingOutcomeOf(book: Book, lotId: number): OutcomeRow | undefined {
  return findStanding(book).get({ lotId });
}

/** What stands, as words for a refusal: `sold to buyer 10 at 12.50`. */
export function outcomeInWords(book: Book, { kind, priceCents, buyerId }: OutcomeRow): string {
  if (kind !== 'sold' || priceCents === null || buyerId === null) return kind;
  return `sold to buyer ${buyerById(book, buyerId)?.buyerNo ?? '?'} at ${showMoney(priceCents)}`;
}

/**
 * How a correction names the outcome that the corrector had before them: by its number in the book or, where the book
 * had not answered yet, by the key of the entry that took it down.
 */
export const replacedFields = {
  replacesId: rowId.optional(),
  replacesKey: z.string().min(1).max(100).optional(),
} satisfies z.ZodRawShape;

const seen = z.object(replacedFields);
export type Seen = z.output<typeof seen>;

/** The number of that outcome; undefined where the entry was refused, or took down nothing for this lot. */
export function replacedId(book: Book, lotId: number, { replacesId, replacesKey }: Seen): number | undefined {
  if (replacesKey === undefined) return replacesId;
  const taken = JSON.parse(lineWithKey(book, replacesKey)?.result ?? 'null') as Taken | null;
  const all = [taken, ...(taken?.outcomes ?? [])];
  return all.find((one) => one?.lotId === lotId)?.outcomeId;
}

interface Taken {
  readonly lotId?: number;
  readonly outcomeId?: number;
  readonly outcomes?: readonly Taken[];
}

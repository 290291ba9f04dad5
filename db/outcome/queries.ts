/** The outcome in force for a lot: the one that no later outcome replaces. */
import * as z from 'zod';
import { rowId } from '#db/book/inputs.ts';
import { lineWithKey } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { buyer, newestOutcome as newest, type outcome, standingOutcome as standing } from '#db/schema/index.ts';
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

const findBuyerNo = query(({ db }) => db.select({ buyerNo: buyer.buyerNo }).from(buyer).where(equals(buyer.id, 'id')));

/** The number of a buyer by the row; undefined where there is none. */
function buyerNoOf(book: Book, id: number): number | undefined {
  return findBuyerNo(book).get({ id })?.buyerNo;
}

/** What stands, as words for a refusal: `sold to buyer 10 at 12.50`. */
export function outcomeInWords(book: Book, { kind, priceCents, buyerId }: OutcomeRow): string {
  if (kind !== 'sold' || priceCents === null || buyerId === null) return kind;
  return `sold to buyer ${buyerNoOf(book, buyerId) ?? '?'} at ${showMoney(priceCents)}`;
}

/**
 * How a correction names the outcome that the corrector had before them: by its number in the book or, where the book
 * had not answered yet, by the key of the entry that took it down.
 */
export const replacedFields = {
  replacesId: rowId.optional(),
  replacesKey: z.string().min(1).max(100).optional(),
} satisfies z.ZodRawShape;

interface Replaced {
  readonly replacesId?: number | undefined;
  readonly replacesKey?: string | undefined;
  readonly lotId: number;
}

/** The number of that outcome; undefined where the entry was refused, or took down nothing for this lot. */
export function replacedId(book: Book, { replacesId, replacesKey, lotId }: Replaced): number | undefined {
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

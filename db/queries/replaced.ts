import { z } from 'zod';
import { rowId } from '../inputs.ts';
import { lineWithKey } from '../log.ts';
import type { Book } from '../open.ts';

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

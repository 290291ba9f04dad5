import 'server-only';
import type { Book } from '#db/open.ts';
import { fewestSet } from '#db/queries/price-lists.ts';
import { FEWEST } from '#lib/range-parts.ts';

export interface Fewest {
  /** How many sellers, and how many buyers, a range has at least before the public sees it. */
  readonly fewest: number;
  /** Whether the association has said so, or the program does where nobody has. */
  readonly said: boolean;
}

/** `PELTRY_PRICES_FEWEST` holds for a book in which the association has set nothing. */
export function fewestNow(book: Book): Fewest {
  const set = fewestSet(book);
  if (set !== undefined) return { fewest: set, said: true };
  const ofStart = process.env.PELTRY_PRICES_FEWEST ?? '';
  return { fewest: /^[1-9]\d?$/.test(ofStart) ? Number.parseInt(ofStart, 10) : FEWEST, said: false };
}

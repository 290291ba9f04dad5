import 'server-only';
import { setImmediate as others } from 'node:timers/promises';
import { theBook } from '#app/book.ts';
import { fewestNow } from '#app/prices-fewest.ts';
import { cachedRead } from '#app/server/read-cache.ts';
import type { Book } from '#db/open.ts';
import { theAssociation } from '#db/queries/sales.ts';
import { pricedSeasons, type SeasonPrices } from '#db/queries/season-prices.ts';

export interface PricesGround {
  readonly book: Book;
  readonly association: string;
  /** Newest first. */
  readonly seasons: readonly SeasonPrices[];
}

const cachedSeasons = cachedRead(pricedSeasons, (fewest: number) => fewest);

/** Whose prices these are, and every season of the book as the public may see it. */
export async function pricesGround(): Promise<PricesGround> {
  const book = await theBook();
  const association = theAssociation(book)?.name ?? 'The association';
  return { book, association, seasons: cachedSeasons(book, fewestNow(book).fewest) };
}

/** Works out every kind of goods of a season, and lets everybody else come in between: of a large sale it takes a second. */
export async function wholeSeason(season: SeasonPrices | undefined): Promise<void> {
  for (const code of season?.codes ?? []) {
    season?.of(code);
    await others();
  }
}

/** A word of an address, or empty where it is missing or given twice. */
export function wordOf(words: Record<string, string | string[] | undefined>, name: string): string {
  const value = words[name];
  return typeof value === 'string' ? value : '';
}

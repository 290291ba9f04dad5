import 'server-only';
import { theBook } from '#app/book.ts';
import { fewestNow } from '#app/prices-fewest.ts';
import type { Book } from '#db/open.ts';
import { theAssociation } from '#db/queries/sales.ts';
import { pricedSeasons, type SeasonPrices } from '#db/queries/season-prices.ts';

export interface PricesGround {
  readonly book: Book;
  readonly association: string;
  /** Newest first. */
  readonly seasons: readonly SeasonPrices[];
}

/** Whose prices these are, and every season of the book as the public may see it. */
export async function pricesGround(): Promise<PricesGround> {
  const book = await theBook();
  const association = theAssociation(book)?.name ?? 'The association';
  return { book, association, seasons: pricedSeasons(book, fewestNow(book).fewest) };
}

/** A word of an address, or empty where it is missing or given twice. */
export function wordOf(words: Record<string, string | string[] | undefined>, name: string): string {
  const value = words[name];
  return typeof value === 'string' ? value : '';
}

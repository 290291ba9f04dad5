import 'server-only';
import { theBook } from '#app/book.ts';
import { theAssociation } from '#db/queries/sales.ts';
import { pricedSeasons, type SeasonPrices } from '#db/queries/season-prices.ts';
import { FEWEST } from '#lib/range-parts.ts';

export interface PricesGround {
  readonly association: string;
  /** Newest first. */
  readonly seasons: readonly SeasonPrices[];
}

/** Whose prices these are, and every season of the book as the public may see it. */
export async function pricesGround(): Promise<PricesGround> {
  const book = await theBook();
  const association = theAssociation(book)?.name ?? 'The association';
  return { association, seasons: pricedSeasons(book, fewestAllowed()) };
}

/** `PELTRY_PRICES_FEWEST`: how many sellers, and how many buyers, a range that is shown has at least. */
function fewestAllowed(): number {
  const set = process.env.PELTRY_PRICES_FEWEST ?? '';
  return /^[1-9]\d?$/.test(set) ? Number.parseInt(set, 10) : FEWEST;
}

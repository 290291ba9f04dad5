import 'server-only';
import { setImmediate as others } from 'node:timers/promises';
import { theBook } from '#app/request/book.ts';
import { fewestNow, type SearchParams } from '#app/request/page-context.ts';
import { cachedRead } from '#app/server/read-cache.ts';
import { type GoodsPrices, pricedSeasons, type SeasonPrices } from '#db/price/season-prices.ts';
import { theAssociation } from '#db/sale/queries.ts';
import { LEVELS } from '#lib/price/parts.ts';
import type { PriceMeasure } from '#lib/price/table.ts';
import type { PartPath } from '#lib/price/words.ts';

const cachedSeasons = cachedRead(pricedSeasons, (fewest: number) => fewest);

/** Whose prices these are, and every season of the book as the public may see it, newest first. */
export async function pricesContext() {
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

/** The season that an address names, or the newest where it names none. */
export function seasonNamed(seasons: readonly SeasonPrices[], named: string): SeasonPrices | undefined {
  return named === '' ? seasons[0] : seasons.find(({ season }) => season === named);
}

export const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly PriceMeasure[];

/** The goods whose range is shown, each with its code as `key`, and the names of those whose range is withheld. */
export function shownAndWithheld(all: readonly GoodsPrices[]) {
  // By name: a copy of the whole would work out the parts of every range, which nobody asks for here.
  const shown = all.flatMap(({ goods: key, name, scientificName, measure, range }) =>
    range ? [{ key, name, scientificName, measure, range }] : [],
  );
  return { shown, withheld: all.filter(({ range }) => range === null).map(({ name }) => name) };
}

/** A word of an address, or empty where it is missing or given twice. */
export function wordOf(words: Awaited<SearchParams>, name: string): string {
  const value = words[name];
  return typeof value === 'string' ? value : '';
}

/** Where a kind of goods, or a part of it, is looked at over the seasons: `/prices/raccoon?section=east&size=L`. */
export function pricesAddress(code: string, path: PartPath = {}): string {
  const words = new URLSearchParams(
    LEVELS.flatMap((level) => (path[level] === undefined ? [] : [[level, path[level]]])),
  );
  return `/prices/${encodeURIComponent(code)}${words.size > 0 ? `?${words}` : ''}`;
}

/** The part that an address names. */
export function pathOf(words: Awaited<SearchParams>): PartPath {
  return Object.fromEntries(
    LEVELS.flatMap((level) => (typeof words[level] === 'string' ? [[level, words[level].slice(0, 80)]] : [])),
  );
}

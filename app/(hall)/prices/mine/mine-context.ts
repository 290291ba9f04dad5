import 'server-only';
import { wordOf } from '#app/(hall)/prices/prices-context.ts';
import type { SearchParams } from '#app/request/page-context.ts';
import type { Book } from '#db/book/open.ts';
import type { SeasonPrices } from '#db/price/season-prices.ts';
import { saleOfRow } from '#db/sale/facts.ts';
import { currentSale } from '#db/sale/queries.ts';
import { type Asked, mineKey, whatMineBrought } from '#lib/price/mine.ts';
import type { Membership } from '#lib/sale/facts.ts';

export type MinePageContext = NonNullable<ReturnType<typeof mineContext>>;

/** What the address asks, and the answer; null where there is no sale, or no season that is over. */
export function mineContext(book: Book, seasons: readonly SeasonPrices[], words: Awaited<SearchParams>) {
  // Whose commission and fees are taken: the sale at hand.
  const row = currentSale(book);
  // The newest that is over.
  const season = seasons.find(({ sales }) => !sales.some(({ running }) => running));
  if (!row || !season) return null;
  const sale = saleOfRow(book, row);
  const membership: Membership = wordOf(words, 'as') === 'guest' ? 'guest' : 'member';
  const asked = season.goods.map(({ goods, name, measure: by, range }) => {
    return { goods, name, range, by, typed: wordOf(words, mineFieldOf({ goods, by })).slice(0, 40) };
  });
  return { sale, season, membership, asked, answer: whatMineBrought(asked, { terms: sale.terms, membership }) };
}

/** What a field of the address is called: with a mark in front, so that no goods' code is taken for another word. */
export function mineFieldOf(asked: Pick<Asked, 'goods' | 'by'>): string {
  return `my ${mineKey(asked)}`;
}

/** The address of the same list without its empty fields, for sharing. */
export function mineAddress({ asked, membership }: Pick<MinePageContext, 'asked' | 'membership'>): string {
  const filled = asked.filter(({ typed }) => typed.trim() !== '').map((one) => [mineFieldOf(one), one.typed.trim()]);
  return `/prices/mine?${new URLSearchParams([...filled, ['as', membership]])}`;
}

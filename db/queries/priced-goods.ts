/** The kinds of goods that members may look for: those of every sale that was held, and those of plain price lists. */
import type { Findable } from '#lib/price-finding.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';
import type { Book } from '../open.ts';

const HELD = `
  SELECT goods.goods, goods.name, goods.scientific_name AS scientificName FROM goods JOIN sale ON sale.id = goods.sale_id
  WHERE sale.stage IN ('selling', 'settling', 'closed') ORDER BY sale.held_on, sale.id`;

/** In the order of their names; each as the newest sale calls it, else as the trade does. */
export function pricedGoods(book: Book): Findable[] {
  const held = book.prepared('goods of held sales', () => book.sqlite.prepare(HELD));
  const listed = book.prepared('goods of price lists', () =>
    book.sqlite.prepare('SELECT DISTINCT goods FROM price_list_row').pluck(),
  );
  const known = new Map((held.all() as Findable[]).map((goods) => [goods.goods, goods]));
  for (const code of listed.all() as string[]) {
    if (known.has(code)) continue;
    const starting = STARTING_GOODS.find(({ goods }) => goods === code);
    const { name, scientificName } = starting ?? { name: code, scientificName: '' };
    known.set(code, { goods: code, name, scientificName });
  }
  return [...known.values()].sort((a, b) => a.name.localeCompare(b.name, 'en'));
}

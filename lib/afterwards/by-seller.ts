/** Lots on paper by seller number: who the seller is stands once, above their lots. */
import { type AfterwardsFacts, sellersInWords } from '#lib/afterwards/facts.ts';
import type { Lot } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import type { ListCell, ListTable } from '#lib/paper/list.ts';
import { joined } from '#lib/sheet/spell.ts';

interface Drawn<T> {
  readonly columns: ListTable['columns'];
  readonly rowOf: (one: T) => readonly ListCell[];
}

/** A table for each seller number among the lots, in the order of the numbers; the lots keep theirs. */
export function bySeller<T extends { readonly lot: Lot }>(
  after: AfterwardsFacts,
  lots: readonly T[],
  { columns, rowOf }: Drawn<T>,
): ListTable[] {
  const sellers = sellersInWords(after);
  return [...groupBy(lots, ({ lot }) => lot.sellerNo)]
    .sort(([a], [b]) => a - b)
    .map(([sellerNo, theirs]) => {
      const seller = sellers.get(sellerNo);
      const licence = seller?.licence ? `licence ${seller.licence}` : 'no licence shown';
      const title = joined([`Seller ${sellerNo}: ${seller?.names ?? ''}`, seller?.address ?? '', licence], ', ');
      return { title, columns, rows: theirs.map(rowOf), none: '', sum: '' };
    });
}

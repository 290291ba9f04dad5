import type { Word } from '#app/station.ts';
import { foundPage, InPages } from '#app/ui/in-pages.tsx';
import type { PayoutRow } from '#db/queries/payout-view.ts';
import { SellerTable } from './seller-table.tsx';

interface SellerListProps {
  readonly rows: readonly PayoutRow[];
  readonly saleId: number;
  readonly word: Word;
}

/** Every seller number, a page at a time, or those that were looked for. */
export function SellerList({ rows, saleId, word }: SellerListProps) {
  const list = foundPage(rows, word, ({ sellerNo, names }) => ({ number: sellerNo, names }));
  return (
    <InPages list={list} saleId={saleId} path="/payout" label="Seller number or name" name="Seller numbers">
      <SellerTable rows={list.shown.rows} find={list.find} saleId={saleId} />
    </InPages>
  );
}

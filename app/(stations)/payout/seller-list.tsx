import { FindInList } from '#app/ui/find-in-list.tsx';
import { Pages } from '#app/ui/pages.tsx';
import type { PayoutRow } from '#db/queries/payout-view.ts';
import { pageOf, ROWS_A_PAGE } from '#lib/paging.ts';
import { partiesFound } from '#lib/party-finding.ts';
import { SellerTable } from './seller-table.tsx';

interface SellerListProps {
  readonly rows: readonly PayoutRow[];
  readonly saleId: number;
  /** The word of the address. */
  readonly word: (name: string) => string | undefined;
}

/** Every seller number, a page at a time, or those that were looked for. */
export function SellerList({ rows, saleId, word }: SellerListProps) {
  const find = word('find') ?? '';
  const found = partiesFound(rows, find, ({ sellerNo, names }) => ({ number: sellerNo, names }));
  const shown = pageOf(found, word('page'));
  const address = (page: number) =>
    `/payout?${new URLSearchParams({ sale: String(saleId), find, page: String(page) })}`;
  return (
    <>
      {rows.length > ROWS_A_PAGE && (
        <FindInList saleId={saleId} path="/payout" label="Seller number or name" find={find} />
      )}
      <SellerTable rows={shown.rows} find={find} saleId={saleId} />
      <Pages of={shown} name="Seller numbers" href={address} />
    </>
  );
}

import { FindInList } from '#app/ui/find-in-list.tsx';
import { Pages } from '#app/ui/pages.tsx';
import type { BuyerHead } from '#db/queries/till-view.ts';
import { pageOf, ROWS_A_PAGE } from '#lib/paging.ts';
import { partiesFound } from '#lib/party-finding.ts';
import { BuyerTable } from './buyer-table.tsx';

interface BuyerListProps {
  readonly rows: readonly BuyerHead[];
  readonly saleId: number;
  /** The word of the address. */
  readonly word: (name: string) => string | undefined;
}

/** Every buyer, a page at a time, or those that were looked for. */
export function BuyerList({ rows, saleId, word }: BuyerListProps) {
  const find = word('find') ?? '';
  const found = partiesFound(rows, find, ({ buyerNo, name }) => ({ number: buyerNo, names: [name] }));
  const shown = pageOf(found, word('page'));
  const address = (page: number) => `/till?${new URLSearchParams({ sale: String(saleId), find, page: String(page) })}`;
  return (
    <>
      {rows.length > ROWS_A_PAGE && <FindInList saleId={saleId} path="/till" label="Buyer’s name" find={find} />}
      <BuyerTable rows={shown.rows} find={find} saleId={saleId} />
      <Pages of={shown} name="Buyers" href={address} />
    </>
  );
}

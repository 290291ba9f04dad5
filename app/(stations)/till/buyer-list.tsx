import type { Word } from '#app/station.ts';
import { foundPage, InPages } from '#app/ui/in-pages.tsx';
import type { Book } from '#db/open.ts';
import { type BuyerHead, invoicesShown } from '#db/queries/till-view.ts';
import { BuyerTable } from './buyer-table.tsx';

interface BuyerListProps {
  readonly book: Book;
  readonly rows: readonly BuyerHead[];
  readonly saleId: number;
  readonly word: Word;
}

/** Every buyer, a page at a time, or those that were looked for. */
export function BuyerList({ book, rows, saleId, word }: BuyerListProps) {
  const list = foundPage(rows, word, ({ buyerNo, name }) => ({ number: buyerNo, names: [name] }));
  const shown = list.shown.rows.map(({ buyerNo }) => buyerNo);
  const invoices = invoicesShown(book, saleId, shown);
  return (
    <InPages list={list} saleId={saleId} path="/till" label="Buyer’s name" name="Buyers">
      <BuyerTable rows={list.shown.rows} {...{ invoices, find: list.find, saleId }} />
    </InPages>
  );
}

/** What went home unsold, a page of seller numbers at a time. The paper and the file are whole. */
import { heldOver } from '#lib/afterwards/held-over.ts';
import { type PageOf, pageOf } from '#lib/paging.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { Book } from '../open.ts';
import { afterwardsFacts } from './afterwards.ts';
import type { SaleRow } from './find.ts';
import { partiesOf } from './parties.ts';

export interface HeldOverView {
  readonly list: ListPaper;
  /** The seller numbers with lots that were not sold. */
  readonly sellers: PageOf<number>;
}

const SELLERS_A_PAGE = 25;

interface Asked {
  /** ISO 8601 date. */
  readonly drawnOn: string;
  readonly page: string | undefined;
}

export function heldOverView(book: Book, sale: SaleRow, { drawnOn, page }: Asked): HeldOverView {
  const held = partiesOf(book, sale).sellers.filter(({ sums }) => sums.became.sold.lots < sums.lots);
  const sellers = pageOf(
    held.map(({ sellerNo }) => sellerNo),
    page,
    SELLERS_A_PAGE,
  );
  const range = { from: sellers.rows[0] ?? 0, to: sellers.rows.at(-1) ?? 0 };
  return { list: heldOver(afterwardsFacts(book, sale, { drawnOn, scope: { sellers: range } })), sellers };
}

/** How far a sale has come, in figures and words, for the sale's page. */
import { termsInWords } from '#lib/terms.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { glance } from './glance.ts';
import { countHeld } from './lots-held.ts';
import { goodsOf, saleOfRow } from './sale-facts.ts';
import { saleToLeave } from './sales.ts';

export interface SaleView {
  readonly terms: readonly string[];
  readonly sellers: number;
  readonly buyers: number;
  readonly lots: number;
  readonly pieces: number;
  readonly onHold: number;
  readonly sold: number;
  readonly passed: number;
  readonly withdrawn: number;
  /** Lots still to be called. */
  readonly left: number;
  /** The sale under way that every station would leave for this one, were it under way too; null where none would. */
  readonly leaves: string | null;
  /** What the hammer brought so far, with commas between the thousands. */
  readonly total: string;
}

type Counts = Pick<SaleView, 'lots' | 'pieces' | 'sellers' | 'buyers'>;

const COUNTS = `
  SELECT (SELECT count(*) FROM lot WHERE sale_id = :saleId) AS lots,
    (SELECT coalesce(sum(count), 0) FROM lot WHERE sale_id = :saleId) AS pieces,
    (SELECT count(*) FROM seller WHERE sale_id = :saleId) AS sellers,
    (SELECT count(*) FROM buyer WHERE sale_id = :saleId) AS buyers`;

export function saleView(book: Book, sale: SaleRow): SaleView {
  const counts = book.prepared('counts of a sale', () => book.sqlite.prepare<[object], Counts>(COUNTS));
  const found = counts.get({ saleId: sale.id }) ?? { lots: 0, pieces: 0, sellers: 0, buyers: 0 };
  const { sold, passed, withdrawn, total } = glance(book, sale, 0);
  return {
    terms: termsInWords(saleOfRow(book, sale), goodsOf(book, sale.id)),
    ...found,
    onHold: countHeld(book, sale),
    ...{ sold, passed, withdrawn, total },
    left: found.lots - sold - passed - withdrawn,
    leaves: saleToLeave(book, sale)?.name ?? null,
  };
}

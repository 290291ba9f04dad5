/** Whose furs may come in: the seller number behind which the sale takes lots now. */
import { and, eq, sql } from 'drizzle-orm';
import { decideLicences } from '#lib/decide-licence.ts';
import { decideIntakeOpen } from '#lib/decide-lot.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import type { Book } from '../open.ts';
import { particulars, partner, seller } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { type SaleRow, type SellerRow, saleById, sellerByNumber } from './find.ts';

const given = sql.placeholder;

export interface Bringing {
  readonly sale: SaleRow;
  readonly seller: SellerRow;
}

/** The sale and the seller number, or why no lot is taken in for them. */
export function mayBring(book: Book, saleId: number, sellerNo: number): Result<Bringing> {
  const sale = saleById(book, saleId);
  if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
  const open = decideIntakeOpen(sale.stage);
  if (!open.ok) return open;
  const found = sellerByNumber(book, saleId, sellerNo);
  if (!found) {
    const message = `There is no seller number ${sellerNo}: check the card, or give the number first.`;
    return refuse('unknown', message, 'sellerNo');
  }
  const licensed = licencesGood(book, sale, found.id);
  return licensed.ok ? accept({ sale, seller: found }) : licensed;
}

const findLicences = statement(({ db }) =>
  db
    .select({
      name: particulars.name,
      licenceNo: particulars.licenceNo,
      licenceRegion: particulars.licenceRegion,
      licenceExpires: particulars.licenceExpires,
    })
    .from(partner)
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .innerJoin(particulars, and(eq(particulars.personId, partner.personId), eq(particulars.saleId, seller.saleId)))
    .where(eq(partner.sellerId, given('sellerId')))
    .orderBy(partner.position)
    .prepare(),
);

/** Whether everybody behind the number has the licence that the sale asks for. */
export function licencesGood(book: Book, { heldOn, licenceRequired: required }: SaleRow, sellerId: number) {
  if (!required) return accept(null);
  const decided = decideLicences({ required, heldOn, people: findLicences(book).all({ sellerId }) });
  return decided.ok ? decided : { ...decided, field: 'sellerNo' };
}

/** Whose furs may come in: the seller number behind which the sale takes lots now. */
import { and, eq, sql } from 'drizzle-orm';
import { findSale } from '#db/book/command.ts';
import { type SaleRow, type SellerRow, sellerByNumber } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { goods, lot, particulars, partner, sale, seller, standingOutcome as standing } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { decideIntakeOpen } from '#lib/lot/decide-lot.ts';
import { wentHome } from '#lib/outcome/words.ts';
import { decideLicences } from '#lib/person/person.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

const given = sql.placeholder;

export interface Bringing {
  readonly sale: SaleRow;
  readonly seller: SellerRow;
}

/** The sale and the seller number, or why no lot is taken in for them. */
export function mayBring(book: Book, saleId: number, sellerNo: number): Result<Bringing> {
  const named = findSale(book, saleId);
  if (!named.ok) return named;
  const sale = named.value;
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

const findLicences = query(({ db }) =>
  db
    .select(pick(particulars, ['name', 'licenceNo', 'licenceRegion', 'licenceExpires']))
    .from(partner)
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .innerJoin(particulars, and(eq(particulars.personId, partner.personId), eq(particulars.saleId, seller.saleId)))
    .where(equals(partner.sellerId, 'sellerId'))
    .orderBy(partner.position),
);

/** Whether everybody behind the number has the licence that the sale asks for. */
export function licencesGood(book: Book, { heldOn, licenceRequired: required }: SaleRow, sellerId: number) {
  if (!required) return accept(null);
  const decided = decideLicences({ required, heldOn, people: findLicences(book).all({ sellerId }) });
  return decided.ok ? decided : { ...decided, field: 'sellerNo' };
}

/** The licences of a seller number's partners at its sale, each once; a person without one stands for themselves. */
export function licencesOfSeller(book: Book, sellerId: number): string[] {
  const people = findLicences(book).all({ sellerId });
  const all = people.map((one) => (one.licenceNo === '' ? one.name : `licence ${one.licenceRegion} ${one.licenceNo}`));
  return [...new Set(all)].sort();
}

interface Asked {
  readonly season: string;
  readonly goods: string;
  readonly licences: readonly string[];
  /** A lot that is being changed and does not count against itself. */
  readonly exceptLotId: number | null;
}

const findPieces = query(({ db }) =>
  db
    .select({ lotId: lot.id, count: lot.count, kind: standing.kind, fate: standing.fate })
    .from(lot)
    // The plus keeps SQLite from going through all lots of the goods: the seller's are few.
    .innerJoin(goods, sql`${goods.id} = +${lot.goodsId}`)
    .leftJoin(standing, eq(standing.lotId, lot.id))
    .where(and(equals(lot.sellerId, 'sellerId'), equals(goods.goods, 'code'))),
);

/** Pieces that went home unsold may come back, so only those that are here or were sold count. */
export function piecesBrought(book: Book, { season, goods: code, licences, exceptLotId }: Asked): number {
  const lots = sellersOf(book, season, licences).flatMap((sellerId) => findPieces(book).all({ sellerId, code }));
  return lots
    .filter(({ lotId, kind, fate }) => lotId !== exceptLotId && (kind === null || !wentHome({ kind, fate })))
    .reduce((pieces, { count }) => pieces + (count ?? 0), 0);
}

const findSellers = query(({ db }) =>
  db
    .selectDistinct({ sellerId: seller.id })
    .from(sale)
    .crossJoin(particulars)
    .crossJoin(partner)
    .crossJoin(seller)
    .where(
      and(
        ...[equals(sale.season, 'season'), eq(particulars.saleId, sale.id)],
        ...[eq(partner.personId, particulars.personId), eq(seller.id, partner.sellerId), eq(seller.saleId, sale.id)],
        sql`${given('licence')} = CASE ${particulars.licenceNo} WHEN '' THEN ${particulars.name}
          ELSE 'licence ' || ${particulars.licenceRegion} || ' ' || ${particulars.licenceNo} END`,
      ),
    ),
);

/** The seller numbers of a season behind which are just these licences: among those of whoever has the first of them. */
function sellersOf(book: Book, season: string, licences: readonly string[]): number[] {
  const [licence] = licences;
  if (licence === undefined) return [];
  const key = licences.join('\n');
  const found = findSellers(book)
    .all({ season, licence })
    .map(({ sellerId }) => sellerId);
  return found.filter((sellerId) => licencesOfSeller(book, sellerId).join('\n') === key);
}

/** The lots of a sale as the papers of Intake and the Block take them: one read of the lots, one of their tags. */
import { and, asc, desc, eq } from 'drizzle-orm';
import { countBy, lotNoOf, type SaleRow } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { leftBids } from '#db/outcome/bids.ts';
import { saleOfRow } from '#db/sale/facts.ts';
import { lotsIn, type Scope, scoped } from '#db/sale/scope.ts';
import { buyer, goods, liveBid, lot, seller, standingOutcome as standing, tag } from '#db/schema/index.ts';
import { associationFacts } from '#db/settlement/sheets.ts';
import { conditionNow, type TagMarks, tagRegions } from '#db/tag/queries.ts';
import { factsOfRow, pick } from '#lib/field/fields.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { inRunningOrder } from '#lib/lot/running-order.ts';
import type { PaperContext, PaperGround, PaperLot, PaperTag } from '#lib/paper/facts.ts';
import { groupBy } from '#lib/result/text.ts';
import { decideTags } from '#lib/tag/check.ts';
import { orderOf } from './open-lots.ts';

/** What stands above every paper of a sale. `issuedOn` is an ISO 8601 date. */
export function paperGround(book: Book, sale: SaleRow, issuedOn: string): PaperContext {
  return { ...bookGround(book, issuedOn), saleId: sale.id, sale: saleOfRow(book, sale) };
}

/** The same of a paper that is about no single sale. */
export function bookGround(book: Book, issuedOn: string): PaperGround {
  return { association: associationFacts(book), issuedOn, head: logHead(book) };
}

/** Every lot of a sale in its running order, also those that were called. */
export function paperLots(book: Book, sale: SaleRow): PaperLot[] {
  const tags = tagsByLot(book, sale.id);
  const withLeftBids = new Set(
    findWithLeftBids(book)
      .all({ saleId: sale.id })
      .map(({ lotId }) => lotId),
  );
  const runners = findLots(book)
    .all({ saleId: sale.id })
    .map((row) => ({
      ...{ lotNo: lotNoOf(row.lot), sellerNo: row.sellerNo, goodsName: row.goods.name, place: row.lot.place },
      row,
    }));
  return inRunningOrder(orderOf(sale), runners).map(({ row }) =>
    paperLot(sale, row, {
      tags: tags.get(row.lot.id) ?? [],
      leftBids: withLeftBids.has(row.lot.id) ? leftBids(book, row.lot.id) : [],
    }),
  );
}

type LotRowOfSale = ReturnType<ReturnType<typeof findLots>['all']>[number];

interface About {
  readonly tags: readonly PaperTag[];
  readonly leftBids: PaperLot['leftBids'];
}

function paperLot(sale: SaleRow, found: LotRowOfSale, { tags, leftBids: left }: About): PaperLot {
  const { lot: row, goods: kind, sellerNo } = found;
  const outcome = outcomeOf(found);
  const { count } = row;
  const lotNo = lotNoOf(row);
  const regions = tagRegions(sale.region, row.takenIn);
  const faults = () => decideTags({ goods: kind, lot: { lotNo, count }, tags, regions, pieceCountRequired: true });
  return {
    ...{ lotNo, sellerNo, goodsName: kind.name, exportTag: kind.exportTag, caution: kind.caution, tags },
    ...factsOfRow(LOT_FIELDS, { ...row, goods: kind.goods }),
    holds: kind.exportTag && !outcome ? faults().map(({ message }) => message) : [],
    leftBids: left,
    outcome,
  };
}

function outcomeOf({ lot: row, kind, priceCents, buyerNo }: LotRowOfSale): PaperLot['outcome'] {
  if (kind === null || kind === 'reopened') return null;
  return {
    kind,
    priceCents,
    amountCents: kind !== 'sold' || priceCents === null ? null : lotAmount(priceCents, row),
    buyerNo,
  };
}

const findLots = query(({ db }) =>
  db
    .select({
      lot,
      goods,
      sellerNo: seller.sellerNo,
      kind: standing.kind,
      priceCents: standing.priceCents,
      buyerNo: buyer.buyerNo,
    })
    .from(lot)
    .innerJoin(goods, eq(goods.id, lot.goodsId))
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .leftJoin(standing, eq(standing.lotId, lot.id))
    .leftJoin(buyer, eq(buyer.id, standing.buyerId))
    .where(equals(lot.saleId, 'saleId')),
);

const findTags = query(({ db }) =>
  db
    .select(pick(tag, ['lotId', 'tag', 'condition', 'brokeAt']))
    .from(tag)
    .innerJoin(lot, eq(lot.id, tag.lotId))
    .where(equals(lot.saleId, 'saleId'))
    .orderBy(asc(tag.position)),
);

function tagsByLot(book: Book, saleId: number): Map<number, PaperTag[]> {
  const byLot = groupBy(findTags(book).all({ saleId }), ({ lotId }) => lotId);
  const said = (row: TagMarks & { readonly tag: string }) => ({ tag: row.tag, condition: conditionNow(row) });
  return new Map([...byLot].map(([lotId, own]) => [lotId, own.map(said)]));
}

const findWithLeftBids = query(({ db }) =>
  db
    .selectDistinct({ lotId: liveBid.lotId })
    .from(buyer)
    .crossJoin(liveBid)
    .where(and(equals(buyer.saleId, 'saleId'), eq(liveBid.buyerId, buyer.id), eq(liveBid.kind, 'left'))),
);

export interface NumberOfLot {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
}

const columns = { lotNumber: lot.lotNumber, lotLetter: lot.lotLetter, sellerNo: seller.sellerNo };

function select({ db }: Book) {
  return db.select(columns).from(lot).innerJoin(seller, eq(seller.id, lot.sellerId)).$dynamic();
}

const rowsIn = scoped((book, kind) => select(book).where(lotsIn(kind)).orderBy(asc(lot.lotNumber), asc(lot.lotLetter)));

/** In their order. */
export function numbersOfLots(book: Book, saleId: number, scope: Scope): NumberOfLot[] {
  return rowsIn(book, saleId, scope).map(numberOf);
}

const byNumber = query((book) =>
  select(book).where(
    and(equals(lot.saleId, 'saleId'), equals(lot.lotNumber, 'number'), equals(lot.lotLetter, 'letter')),
  ),
);

/** One lot, or none where the sale has no such number. */
export function numberOfLot(
  book: Book,
  saleId: number,
  { number, letter }: { number: number; letter: string },
): NumberOfLot[] {
  return byNumber(book).all({ saleId, number, letter }).map(numberOf);
}

const ofSale = equals(lot.saleId, 'saleId');
const firstLot = query((book) => select(book).where(ofSale).orderBy(asc(lot.lotNumber), asc(lot.lotLetter)).limit(1));
const lastLot = query((book) => select(book).where(ofSale).orderBy(desc(lot.lotNumber), desc(lot.lotLetter)).limit(1));

/** How many lots a sale has. */
export const howManyLots = countBy(lot, lot.saleId);

/** The first and the last of a sale, and how many there are. */
export function endsOfLots(book: Book, saleId: number): { readonly lots: NumberOfLot[]; readonly many: number } {
  const lots = [...firstLot(book).all({ saleId }), ...lastLot(book).all({ saleId })].map(numberOf);
  return { lots, many: howManyLots(book, saleId) };
}

interface Row {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly sellerNo: number;
}

function numberOf({ sellerNo, ...number }: Row): NumberOfLot {
  return { lotNo: lotNoOf(number), sellerNo };
}

const findTakenIn = scoped(({ db }, kind) =>
  db
    .select(pick(lot, ['lotNumber', 'lotLetter', 'takenIn']))
    .from(lot)
    .where(lotsIn(kind)),
);

/** Where each lot of a scope was taken, as it was said at Intake; empty where nothing was said. */
export function takenInOf(book: Book, saleId: number, scope: Scope): Map<LotNo, string> {
  return new Map(findTakenIn(book, saleId, scope).map((row) => [lotNoOf(row), row.takenIn]));
}

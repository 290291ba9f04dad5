/** The lots of a sale as the papers of Intake and the Block take them: one read of the lots, one of their tags. */
import { and, asc, eq, sql } from 'drizzle-orm';
import { factsOfRow } from '#lib/field/fields.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { cents } from '#lib/money.ts';
import type { PaperGround, PaperLot, PaperTag } from '#lib/paper/facts.ts';
import { inRunningOrder } from '#lib/running-order.ts';
import { decideTags } from '#lib/tag-check.ts';
import { logHead } from '../log.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { buyer, goods, liveBid, lot, seller, standingOutcome as standing, tag } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { leftBids } from './bids.ts';
import type { SaleRow } from './find.ts';
import { orderOf } from './open-lots.ts';
import { saleOfRow } from './sale-facts.ts';
import { associationFacts } from './sheets.ts';
import { conditionNow, tagRegions } from './tags.ts';

const given = sql.placeholder;

/** What stands above every paper of a sale. `issuedOn` is an ISO 8601 date. */
export function paperGround(book: Book, sale: SaleRow, issuedOn: string): PaperGround {
  const head = logHead(book);
  return { association: associationFacts(book), saleId: sale.id, sale: saleOfRow(book, sale), issuedOn, head };
}

/** Every lot of a sale in its running order, also those that were called. */
export function paperLots(book: Book, sale: SaleRow): PaperLot[] {
  const tags = tagsByLot(book, sale.id);
  const withLeftBids = new Set(lotsWithLeftBids(book, sale.id));
  const runners = lotRows(book, sale.id).map((row) => ({
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

type LotRowOfSale = ReturnType<typeof lotRows>[number];

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
  const price = priceCents === null ? null : cents(priceCents);
  return { kind, priceCents: price, amountCents: price === null ? null : lotAmount(price, row), buyerNo };
}

const findLots = statement(({ db }) =>
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
    .where(eq(lot.saleId, given('saleId')))
    .prepare(),
);

function lotRows(book: Book, saleId: number) {
  return findLots(book).all({ saleId });
}

const findTags = statement(({ db }) =>
  db
    .select({ lotId: tag.lotId, tag: tag.tag, condition: tag.condition, brokeAt: tag.brokeAt })
    .from(tag)
    .innerJoin(lot, eq(lot.id, tag.lotId))
    .where(eq(lot.saleId, given('saleId')))
    .orderBy(asc(tag.position))
    .prepare(),
);

function tagsByLot(book: Book, saleId: number): Map<number, PaperTag[]> {
  const byLot = new Map<number, PaperTag[]>();
  for (const { lotId, ...row } of findTags(book).all({ saleId })) {
    const own = { tag: row.tag, condition: conditionNow(row) };
    const others = byLot.get(lotId);
    if (others) others.push(own);
    else byLot.set(lotId, [own]);
  }
  return byLot;
}

const findWithLeftBids = statement(({ db }) =>
  db
    .selectDistinct({ lotId: liveBid.lotId })
    .from(buyer)
    .crossJoin(liveBid)
    .where(and(eq(buyer.saleId, given('saleId')), eq(liveBid.buyerId, buyer.id), eq(liveBid.kind, 'left')))
    .prepare(),
);

function lotsWithLeftBids(book: Book, saleId: number): number[] {
  return findWithLeftBids(book)
    .all({ saleId })
    .map(({ lotId }) => lotId);
}

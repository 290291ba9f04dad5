/** The lots of a sale as the papers of Intake and the Block take them: one read of the lots, one each of tags and outcomes. */
import { and, asc, eq, isNull, ne, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { cents } from '#lib/money.ts';
import type { PaperGround, PaperLot, PaperTag } from '#lib/paper/facts.ts';
import { lotAmount } from '#lib/quantity.ts';
import { inRunningOrder } from '#lib/running-order.ts';
import { decideTags } from '#lib/tag-check.ts';
import { logHead } from '../log.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { bid, buyer, goods, lot, outcome, seller, tag } from '../schema/index.ts';
import { leftBids } from './bids.ts';
import type { SaleRow } from './find.ts';
import { orderOf } from './open-lots.ts';
import { saleOfRow } from './sale-facts.ts';
import { associationFacts } from './sheets.ts';
import { conditionNow, tagRegions } from './tags.ts';

const given = sql.placeholder;
const later = alias(outcome, 'later');

/** What stands above every paper of a sale. `issuedOn` is an ISO 8601 date. */
export function paperGround(book: Book, sale: SaleRow, issuedOn: string): PaperGround {
  const head = logHead(book);
  return { association: associationFacts(book), saleId: sale.id, sale: saleOfRow(book, sale), issuedOn, head };
}

/** Every lot of a sale in its running order, also those that were called. */
export function paperLots(book: Book, sale: SaleRow): PaperLot[] {
  const tags = tagsByLot(book, sale.id);
  const outcomes = new Map(outcomeRows(book, sale.id).map(({ lotId, ...row }) => [lotId, row]));
  const withLeftBids = new Set(lotsWithLeftBids(book, sale.id));
  const runners = lotRows(book, sale.id).map((row) => ({
    ...{ lotNo: lotNoOf(row.lot), sellerNo: row.sellerNo, goodsName: row.goods.name, place: row.lot.place },
    row,
  }));
  return inRunningOrder(orderOf(sale), runners).map(({ row }) =>
    paperLot(sale, row, {
      tags: tags.get(row.lot.id) ?? [],
      outcome: outcomes.get(row.lot.id),
      leftBids: withLeftBids.has(row.lot.id) ? leftBids(book, row.lot.id) : [],
    }),
  );
}

type LotRowOfSale = ReturnType<typeof lotRows>[number];
type OutcomeOfLot = Omit<ReturnType<typeof outcomeRows>[number], 'lotId'>;

interface About {
  readonly tags: readonly PaperTag[];
  readonly outcome: OutcomeOfLot | undefined;
  readonly leftBids: PaperLot['leftBids'];
}

function paperLot(sale: SaleRow, { lot: row, goods: kind, sellerNo }: LotRowOfSale, about: About): PaperLot {
  const { form, by, count, weightThousandths, size, grade, section, note, withoutReserve, donated } = row;
  const lotNo = lotNoOf(row);
  const { tags, leftBids: left } = about;
  const regions = tagRegions(sale.region, row.takenIn);
  const faults = () => decideTags({ goods: kind, lot: { lotNo, count }, tags, regions, pieceCountRequired: true });
  return {
    ...{ lotNo, sellerNo, goodsName: kind.name, exportTag: kind.exportTag, caution: kind.caution, tags },
    ...{ form, by, count, weightThousandths, size, grade, section, note, withoutReserve, donated },
    minimumCents: row.minimumCents === null ? null : cents(row.minimumCents),
    holds: kind.exportTag && !about.outcome ? faults().map(({ message }) => message) : [],
    leftBids: left,
    outcome: about.outcome ? outcomeOf(about.outcome, row) : null,
  };
}

function outcomeOf({ kind, priceCents, buyerNo }: OutcomeOfLot, row: LotRowOfSale['lot']): PaperLot['outcome'] {
  const price = priceCents === null ? null : cents(priceCents);
  return { kind, priceCents: price, amountCents: price === null ? null : lotAmount(price, row), buyerNo };
}

function lotRows(book: Book, saleId: number) {
  const find = book.prepared('paper lots', (db) =>
    db
      .select({ lot, goods, sellerNo: seller.sellerNo })
      .from(lot)
      .innerJoin(goods, eq(goods.id, lot.goodsId))
      .innerJoin(seller, eq(seller.id, lot.sellerId))
      .where(eq(lot.saleId, given('saleId')))
      .prepare(),
  );
  return find.all({ saleId });
}

function tagsByLot(book: Book, saleId: number): Map<number, PaperTag[]> {
  const find = book.prepared('paper tags', (db) =>
    db
      .select({ lotId: tag.lotId, tag: tag.tag, condition: tag.condition, brokeAt: tag.brokeAt })
      .from(tag)
      .innerJoin(lot, eq(lot.id, tag.lotId))
      .where(eq(lot.saleId, given('saleId')))
      .orderBy(asc(tag.position))
      .prepare(),
  );
  const byLot = new Map<number, PaperTag[]>();
  for (const { lotId, ...row } of find.all({ saleId })) {
    const own = { tag: row.tag, condition: conditionNow(row) };
    const others = byLot.get(lotId);
    if (others) others.push(own);
    else byLot.set(lotId, [own]);
  }
  return byLot;
}

function lotsWithLeftBids(book: Book, saleId: number): number[] {
  const find = book.prepared('lots with left bids', (db) =>
    db
      .selectDistinct({ lotId: bid.lotId })
      .from(bid)
      .innerJoin(lot, eq(lot.id, bid.lotId))
      .where(and(eq(lot.saleId, given('saleId')), eq(bid.kind, 'left')))
      .prepare(),
  );
  return find.all({ saleId }).map(({ lotId }) => lotId);
}

/** The outcomes that stand: none that a later one replaced, and none of a lot that was reopened. */
function outcomeRows(book: Book, saleId: number) {
  const find = book.prepared('paper outcomes', (db) =>
    db
      .select({ lotId: outcome.lotId, kind: outcome.kind, priceCents: outcome.priceCents, buyerNo: buyer.buyerNo })
      .from(outcome)
      .innerJoin(lot, eq(lot.id, outcome.lotId))
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .leftJoin(buyer, eq(buyer.id, outcome.buyerId))
      .where(and(eq(lot.saleId, given('saleId')), isNull(later.id), ne(outcome.kind, 'reopened')))
      .prepare(),
  );
  return find.all({ saleId }).flatMap(({ kind, ...row }) => (kind === 'reopened' ? [] : [{ ...row, kind }]));
}

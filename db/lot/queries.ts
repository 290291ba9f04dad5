/** Lots as the check-in table shows them: what was said, what state they are in, and what holds them back. */
import { and, asc, desc, eq, isNull } from 'drizzle-orm';
import {
  type GoodsRow,
  goodsById,
  type LotRow,
  lotById,
  lotByNumber,
  lotNoOf,
  type SaleRow,
  saleById,
  sellerById,
} from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { isHanded } from '#db/buyer/handover.ts';
import { type UnderBid, underBidOf } from '#db/outcome/bids.ts';
import { type BlockLot, blockLots } from '#db/outcome/block-view.ts';
import { type CalledLot, calledLot } from '#db/outcome/called.ts';
import { outcomeInWords, standingOutcomeOf as outcomeOf } from '#db/outcome/queries.ts';
import { checksOfSale } from '#db/payment/queries.ts';
import { goods, invoice, lot, seller, settlement, standingOutcome } from '#db/schema/index.ts';
import {
  conditionNow,
  holdsOfLot,
  holdsOfOpenLot,
  openTags,
  saidTags,
  type TagRow,
  tagsOfLot,
} from '#db/tag/queries.ts';
import { typedOf } from '#lib/field/fields.ts';
import { lotDetails } from '#lib/lot/details.ts';
import { LOT_FIELDS, type LotAsTyped } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { minimumInWords, quantityInWords } from '#lib/lot/words.ts';
import { formatMoney } from '#lib/money/money.ts';
import type { TagCondition } from '#lib/sale/facts.ts';
import { type MendableTag, mendableTags } from '#lib/tag/mend.ts';

/** `ready` may be put up; `on_hold` may not until its tags are right; `called` has an outcome and is no longer changed. */
type LotState = 'ready' | 'on_hold' | 'called';

export interface IntakeLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly exportTag: boolean;
  readonly caution: string;
  readonly quantity: string;
  /** Size, grade, section, form and note as one line. */
  readonly details: string;
  readonly minimum: string;
  readonly state: LotState;
  /** What stands for a called lot, such as `sold to buyer 10 at 12.50`; empty before. */
  readonly outcome: string;
  /** One sentence for each thing that is missing or wrong. */
  readonly holds: readonly string[];
  readonly tags: readonly { readonly tag: string; readonly condition: TagCondition; readonly cameBack: boolean }[];
  /** The tags of which something can be said after the hammer. */
  readonly mendable: readonly MendableTag[];
  readonly typed: LotAsTyped;
}

interface Found {
  readonly lot: LotRow;
  readonly goods: GoodsRow;
  readonly sellerNo: number;
}

const findOfSeller = query(({ db }) =>
  db
    .select({ lot, goods, sellerNo: seller.sellerNo })
    .from(lot)
    .innerJoin(goods, eq(goods.id, lot.goodsId))
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .where(equals(lot.sellerId, 'sellerId'))
    .orderBy(asc(lot.lotNumber), asc(lot.lotLetter)),
);

/** The lots of one seller number, by lot number. */
export function lotsOfSeller(book: Book, sellerId: number): IntakeLot[] {
  const rows = findOfSeller(book).all({ sellerId });
  return rows.map((found) => intakeLot(book, found));
}

export interface HeldLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
}

/** From the goods that take tags on: most goods of most sales take none. */
const findTagged = query(({ db }) =>
  db
    .select({ lot, goods })
    .from(goods)
    .crossJoin(lot)
    .leftJoin(standingOutcome, eq(standingOutcome.lotId, lot.id))
    .where(
      and(
        ...[equals(goods.saleId, 'saleId'), eq(goods.exportTag, true), eq(lot.goodsId, goods.id)],
        isNull(standingOutcome.id),
      ),
    )
    .orderBy(asc(lot.lotNumber), asc(lot.lotLetter)),
);

/** The lots of a sale that are to be called and may not be put up until their tags are right, by lot number. */
export function lotsHeld(book: Book, { id: saleId, region }: SaleRow): HeldLot[] {
  const rows = findTagged(book).all({ saleId });
  const tags = rows.length > 0 ? openTags(book, saleId) : new Map<number, TagRow[]>();
  return rows
    .filter((row) => holdsOfOpenLot(row.lot, row.goods, { region, tags: tags.get(row.lot.id) ?? [] }).length > 0)
    .map((row) => ({ lotId: row.lot.id, lotNo: lotNoOf(row.lot) }));
}

/** How many there are. */
export function countHeld(book: Book, sale: SaleRow): number {
  return lotsHeld(book, sale).length;
}

/** The lots of a sale that are on hold, by lot number: the list of the agency officer's table. */
export function lotsOnHold(book: Book, saleId: number): IntakeLot[] {
  const sale = saleById(book, saleId);
  return sale ? intakeLotsById(book, lotsHeld(book, sale)) : [];
}

/** Lots by their rows, in the order in which they are named. */
export function intakeLotsById(book: Book, lots: readonly { readonly lotId: number }[]): IntakeLot[] {
  return lots.flatMap(({ lotId }) => {
    const row = lotById(book, lotId);
    return row ? (intakeLotOfRow(book, row) ?? []) : [];
  });
}

/** One lot by the number on its ticket; undefined where there is none. */
export function intakeLotByNumber(book: Book, saleId: number, lotNo: LotNo): IntakeLot | undefined {
  const row = lotByNumber(book, saleId, lotNo);
  return row && intakeLotOfRow(book, row);
}

function intakeLotOfRow(book: Book, row: LotRow): IntakeLot | undefined {
  const kind = goodsById(book, row.goodsId);
  const sellerNo = sellerById(book, row.sellerId)?.sellerNo;
  return kind && sellerNo !== undefined ? intakeLot(book, { lot: row, goods: kind, sellerNo }) : undefined;
}

function intakeLot(book: Book, { lot: row, goods: kind, sellerNo }: Found): IntakeLot {
  const standing = outcomeOf(book, row.id);
  const holds = standing ? [] : holdsOfLot(book, row, kind).map(({ message }) => message);
  return {
    ...{ lotId: row.id, lotNo: lotNoOf(row), sellerNo, goodsName: kind.name, exportTag: kind.exportTag, holds },
    caution: row.form === 'put_up' ? '' : kind.caution,
    quantity: quantityInWords(row),
    details: lotDetails('intake', row, ', '),
    minimum: minimumInWords(row.minimumCents, row),
    state: standing ? 'called' : holds.length > 0 ? 'on_hold' : 'ready',
    outcome: standing ? outcomeInWords(book, standing) : '',
    tags: tagsOfLot(book, row.id).map((one) => ({
      ...{ tag: one.tag, condition: conditionNow(one), cameBack: one.cameBackFromId !== null },
    })),
    mendable: standing ? mendableTags(saidTags(tagsOfLot(book, row.id))) : [],
    typed: typedOf(LOT_FIELDS, { ...row, goods: kind.goods }),
  };
}

export interface LotCard {
  readonly lot: BlockLot;
  readonly called: CalledLot | null;
  /** A sentence for each paper or act that a correction would touch. */
  readonly touches: readonly string[];
  /** Who bid last before the buyer, as it was noted: they may take the lot if the buyer does not. */
  readonly underBid: ReturnType<typeof typedUnderBid> | null;
}

export function lotCard(book: Book, sale: SaleRow, lotNo: LotNo): LotCard | null {
  const row = lotByNumber(book, sale.id, lotNo);
  const sellerNo = row && sellerById(book, row.sellerId)?.sellerNo;
  if (!row || sellerNo === undefined) return null;
  const lot = blockLots(book, sale, [{ lotId: row.id, sellerNo }])[0];
  if (!lot) return null;
  const standing = outcomeOf(book, row.id);
  const buyerId = standing?.buyerId ?? null;
  const under = standing && underBidOf(book, row.id);
  return {
    lot,
    called: calledLot(book, row.id) ?? null,
    underBid: under && under.buyerId !== buyerId ? typedUnderBid(under) : null,
    touches: [
      ...invoicesTouched(book, buyerId),
      ...sheetsTouched(book, row.sellerId),
      ...checksTouched(book, sale.id, sellerNo),
      ...handedOver(book, row.id),
    ],
  };
}

/** As it would be typed to put the lot right. */
function typedUnderBid({ buyerNo, priceCents }: UnderBid) {
  return { price: formatMoney(priceCents), buyer: String(buyerNo), reason: `under-bid of buyer ${buyerNo} taken up` };
}

const findInvoice = query(({ db }) =>
  db
    .select({ number: invoice.number })
    .from(invoice)
    .where(equals(invoice.buyerId, 'buyerId'))
    .orderBy(desc(invoice.id))
    .limit(1),
);

function invoicesTouched(book: Book, buyerId: number | null): string[] {
  if (buyerId === null) return [];
  const found = findInvoice(book).get({ buyerId });
  return found ? [`Invoice ${found.number} was already handed to this buyer: the Till must correct it.`] : [];
}

const findSheet = query(({ db }) =>
  db
    .select({ number: settlement.number })
    .from(settlement)
    .where(equals(settlement.sellerId, 'sellerId'))
    .orderBy(desc(settlement.id))
    .limit(1),
);

function sheetsTouched(book: Book, sellerId: number): string[] {
  const found = findSheet(book).get({ sellerId });
  return found ? [`Settlement sheet ${found.number} was already handed to this seller: Payout must correct it.`] : [];
}

function checksTouched(book: Book, saleId: number, sellerNo: number): string[] {
  const numbers = checksOfSale(book, saleId)
    .filter((check) => check.sellerNo === sellerNo && check.voidedOn === null)
    .map(({ number }) => number);
  if (numbers.length === 0) return [];
  const checks = numbers.length === 1 ? `Check ${numbers[0]} was` : `Checks ${numbers.join(', ')} were`;
  return [`${checks} already written to this seller: Payout must pay the difference or ask for it back.`];
}

function handedOver(book: Book, lotId: number): string[] {
  return isHanded(book, lotId) ? ['The lot was already handed over to its buyer.'] : [];
}

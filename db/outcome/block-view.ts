/** What the clerk beside the auctioneer sees: the lot that is up, what comes next, what just happened. */
import { and, eq } from 'drizzle-orm';
import { goodsById, type LotRow, lotById, type SaleRow } from '#db/book/find.ts';
import { newestLine } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { limitsInWords } from '#db/buyer/accounts.ts';
import { nextLots, type OpenLot, orderOf } from '#db/lot/open-lots.ts';
import { howManyLots } from '#db/lot/papers.ts';
import { type EarlierPrices, earlierPrices } from '#db/sale/goods.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { buyer, particulars, partner } from '#db/schema/index.ts';
import { aheadMs, instantOf, timeInWords } from '#lib/date/date.ts';
import { lotDetails } from '#lib/lot/details.ts';
import type { RunningOrder } from '#lib/lot/running-order.ts';
import { cents } from '#lib/money/money.ts';
import type { OutcomeContext } from '#lib/outcome/decide-outcome.ts';
import { boundsInWords } from '#lib/outcome/pace.ts';
import type { Measured, Stage } from '#lib/sale/facts.ts';
import { priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import { bidsInWords } from './bids.ts';
import { type CalledLot, calledLots, type Glance, glance } from './called.ts';
import { outcomeAbout } from './context.ts';

/** So many lots are sent ahead that the clerk can go on for ten minutes while the line is down. */
const AHEAD = 40;
const LAST = 10;

/** A lot as it is called, with all that the questions before saving it need. */
export interface BlockLot extends Measured {
  readonly lotId: number;
  readonly lotNo: string;
  readonly sellerNo: number;
  readonly goodsName: string;
  /** `32 pieces`. */
  readonly quantity: string;
  /** Size, grade, section and note as one line. */
  readonly details: string;
  /** `each`, `the lot`, `/ lb`. */
  readonly standsFor: string;
  /** The same as it is said: `one piece`, `the whole lot`, `a pound`. */
  readonly priceIsFor: string;
  /** `25.00 each`, or empty. */
  readonly minimum: string;
  readonly withoutReserve: boolean;
  readonly donated: boolean;
  /** What to mind with green goods and carcasses; empty for goods that are put up. */
  readonly caution: string;
  /** `8.00 to 14.50`, or empty where these goods were not sold before. */
  readonly earlier: string;
  /** The left bids as words, the one that applies first, and an under-bid; empty where there are none. */
  readonly bids: string;
  /** The buyer numbers of the people whose lot this is. */
  readonly sellersAsBuyers: readonly number[];
  readonly scene: Omit<OutcomeContext, 'buyer'>;
}

export interface BlockBuyer {
  readonly buyerNo: number;
  readonly name: string;
  readonly cleared: boolean;
  /** What is left of the limit, or by how much it is passed; empty for a buyer without one. */
  readonly limit: string;
}

export interface BlockView {
  readonly line: number;
  readonly saleId: number;
  /** How far the association's clocks are ahead of UTC on the day of the sale: times on paper are theirs. */
  readonly aheadMs: number;
  readonly stage: Stage;
  /** Why no lot is up and what to do, as a sentence; empty while one is. */
  readonly whyNone: string;
  readonly bidding: 'floor' | 'sealed';
  readonly order: RunningOrder;
  readonly buyers: readonly BlockBuyer[];
  /** The first is up. */
  readonly ahead: readonly BlockLot[];
  /** Newest first; `at` is the time of day as people read it. */
  readonly last: readonly CalledLot[];
  readonly glance: Glance;
}

const NOT_STARTED = 'The sale has not started. To sell a lot, start the sale under Sale.';
const NOT_SELLING: Readonly<Record<Exclude<Stage, 'selling'>, string>> = {
  planned: NOT_STARTED,
  intake: NOT_STARTED,
  settling: 'The bidding has ended. To sell another lot, go back to selling under Sale.',
  closed: 'The sale is closed. To change an outcome, reopen the sale under Sale.',
};

function whyNoLot(stage: Stage, open: number, called: number): string {
  if (stage !== 'selling') return NOT_SELLING[stage];
  // The view has lots, and a browser has called them all: the next ones come with the next view.
  if (open > 0) return 'Every lot that this screen knows of is called. Until the server answers, use a block sheet.';
  return called > 0 ? 'Every lot has been called.' : 'No lot has been checked in yet.';
}

export function blockView(book: Book, sale: SaleRow): BlockView {
  const ahead = nextLots(book, sale, AHEAD);
  const zone = timeZoneOf(book);
  const last = calledLots(book, sale.id, LAST).map((one) => ({ ...one, at: timeInWords(one.at, zone) }));
  return {
    line: newestLine(book),
    saleId: sale.id,
    aheadMs: aheadMs(instantOf(sale.heldOn, '12:00', zone), zone),
    stage: sale.stage,
    whyNone: whyNoLot(sale.stage, ahead.length, last.length),
    bidding: sale.bidding,
    order: orderOf(sale),
    buyers: buyersOf(book, sale.id),
    ahead: blockLots(book, sale, ahead),
    last,
    glance: glance(book, sale.id, howManyLots(book, sale.id)),
  };
}

const PRICE_IS_FOR = { piece: 'one piece', lot: 'the whole lot', lb: 'a pound', oz: 'an ounce' } as const;

/** Lots as the Block shows them. What such goods brought before is read once for all lots of the goods. */
export function blockLots(book: Book, sale: SaleRow, lots: readonly Pick<OpenLot, 'lotId' | 'sellerNo'>[]): BlockLot[] {
  const brought = new Map<string, EarlierPrices | null>();
  return lots.flatMap(({ lotId, sellerNo }) => {
    const lot = lotById(book, lotId);
    const goods = lot && goodsById(book, lot.goodsId);
    if (!lot || !goods) return [];
    const key = `${lot.goodsId} ${lot.by}`;
    const known = brought.get(key);
    const earlier = known === undefined ? earlierPrices(book, sale, lot) : known;
    brought.set(key, earlier);
    const { buyer: _nobody, ...scene } = outcomeAbout(book, { sale, lot, buyerNo: null, earlier }).scene;
    const { by, count, weightThousandths, withoutReserve, donated } = lot;
    return {
      ...{ lotId, lotNo: scene.lotNo, sellerNo, goodsName: goods.name, by, count, weightThousandths },
      ...{ withoutReserve, donated, caution: lot.form === 'put_up' ? '' : goods.caution, scene },
      quantity: quantityFor(lot).words,
      details: lotDetails('block', lot, ', '),
      standsFor: priceFor(cents(0), by).unit,
      priceIsFor: PRICE_IS_FOR[by],
      minimum: scene.minimumCents === null ? '' : priceFor(scene.minimumCents, by).words,
      earlier: earlier ? boundsInWords(earlier) : '',
      bids: bidsInWords(book, sale, lot),
      sellersAsBuyers: sellersAsBuyers(book, lot),
    };
  });
}

const findSellersAsBuyers = query(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo })
    .from(partner)
    .innerJoin(buyer, eq(buyer.personId, partner.personId))
    .where(and(equals(partner.sellerId, 'sellerId'), equals(buyer.saleId, 'saleId'))),
);

function sellersAsBuyers(book: Book, { saleId, sellerId }: LotRow): number[] {
  const rows = findSellersAsBuyers(book).all({ saleId, sellerId });
  return rows.map(({ buyerNo }) => buyerNo);
}

const findBuyers = query(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo, name: particulars.name, cleared: buyer.cleared })
    .from(buyer)
    .innerJoin(particulars, and(eq(particulars.personId, buyer.personId), eq(particulars.saleId, buyer.saleId)))
    .where(equals(buyer.saleId, 'saleId'))
    .orderBy(buyer.buyerNo),
);

export function buyersOf(book: Book, saleId: number): BlockView['buyers'] {
  const limits = limitsInWords(book, saleId);
  const rows = findBuyers(book).all({ saleId });
  return rows.map((one) => ({ ...one, limit: limits.get(one.buyerNo) ?? '' }));
}

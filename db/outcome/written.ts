/** A written sale in the book: its times, what its bids come to at this moment, and what has to be answered first. */
import { type BuyerRow, type LotRow, lotById, lotNoOf, type SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { owingOf } from '#db/buyer/accounts.ts';
import { type OpenLot, openLots } from '#db/lot/open-lots.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { limitInWords } from '#lib/buyer/buyer.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { addCents, type Cents, showMoney } from '#lib/money/money.ts';
import { type AwardOfLot, awardLot, decideAwards } from '#lib/outcome/award.ts';
import { type OutcomeQuestion, questionsOfBid } from '#lib/outcome/decide-outcome.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { countingBids, type WrittenBid, writtenBids } from './bids.ts';
import { outcomeAbout } from './context.ts';

/** The times of a sale's written bids, beside the moment of a command. */
export function bidTimes({ book, at }: { readonly book: Book; readonly at: string }, sale: SaleRow | undefined) {
  return {
    ...{ at, timeZone: timeZoneOf(book) },
    closeAt: sale?.bidsCloseAt ?? null,
    closedAt: sale?.bidsClosedAt ?? null,
    awardedAt: sale?.bidsAwardedAt ?? null,
  };
}

/** A question about the bid that would take a lot. It is answered for this bid only. */
export interface BidQuestion {
  readonly bidId: number;
  readonly lotNo: string;
  readonly buyerNo: number;
  readonly question: OutcomeQuestion;
  readonly words: string;
}

export interface LotToAward extends Omit<AwardOfLot, 'lotNo'> {
  readonly lot: OpenLot;
  readonly row: LotRow;
  /** The bid that leads; none on a lot without bids or on hold. */
  readonly bidId: number | null;
  /** Of a lot that its bid takes; one below the minimum is asked about when its seller accepts. */
  readonly questions: readonly BidQuestion[];
}

/** What awarding would make of every open lot now, in running order, with what is to be answered. Writes nothing. */
export function lotsToAward(book: Book, sale: SaleRow, bids: readonly WrittenBid[]): Result<LotToAward[]> {
  const found = openLots(book, sale).flatMap((lot) => {
    const row = lotById(book, lot.lotId);
    return row ? [{ lot, row }] : [];
  });
  const counting = countingBids(bids);
  const open = found.map(({ lot, row }) => {
    return { lotNo: lot.lotNo, minimumCents: row.minimumCents, onHold: holdsOfLotId(book, row).length > 0 };
  });
  const decided = decideAwards({ stage: sale.stage, bidding: sale.bidding, open, bids: counting });
  if (!decided.ok) return decided;
  const spent = new Map<number, Cents>();
  return accept(
    found.map(({ lot, row }, at) => {
      const award = decided.value[at]?.award ?? { kind: 'no_bid' };
      if (award.kind === 'no_bid' || award.kind === 'on_hold') return { lot, row, award, bidId: null, questions: [] };
      const { buyerNo, priceCents } = award;
      const lead = counting.find(
        (bid) => bid.lotId === lot.lotId && bid.buyerNo === buyerNo && bid.priceCents === priceCents,
      );
      const bidId = lead?.bidId ?? 0;
      if (award.kind !== 'awarded') return { lot, row, award, bidId, questions: [] };
      const { scene, buyer } = outcomeAbout(book, { sale, lot: row, buyerNo });
      const before = spent.get(buyerNo) ?? (buyer && buyer.limitCents !== null ? owingOf(book, sale, buyer) : null);
      const after = before === null ? null : addCents(before, lotAmount(priceCents, row));
      if (after !== null) spent.set(buyerNo, after);
      const asked = questionsOfBid(withLimit(scene, buyer, after), priceCents);
      const questions = asked.map((one) => ({ bidId, lotNo: lot.lotNo, buyerNo, ...one }));
      return { lot, row, award, bidId, questions };
    }),
  );
}

type Scene = ReturnType<typeof outcomeAbout>['scene'];

/** The limit is held against the lots of this act too: what they come to before premium and tax. */
function withLimit(scene: Scene, buyer: BuyerRow | undefined, after: Cents | null): Scene {
  if (!scene.buyer || !buyer || buyer.limitCents === null || after === null || after <= buyer.limitCents) return scene;
  return { ...scene, buyer: { ...scene.buyer, beyondLimit: limitInWords(buyer.limitCents, after) } };
}

/** The same of one lot whose seller accepts a bid below the minimum. */
export function withLimitOf(book: Book, sale: SaleRow, about: ReturnType<typeof outcomeAbout>, price: Cents): Scene {
  const { scene, buyer, lot } = about;
  if (sale.bidding !== 'sealed' || !buyer || buyer.limitCents === null) return scene;
  return withLimit(scene, buyer, addCents(owingOf(book, sale, buyer), lotAmount(price, lot)));
}

/** At a written sale a seller accepts the best bid that counts, and no other: what differs is a correction. */
export function soldByBids(
  book: Book,
  sale: SaleRow,
  lot: LotRow,
  { priceCents, buyerNo }: { readonly priceCents: Cents | null; readonly buyerNo: number | null },
): Result<null> {
  if (sale.bidding !== 'sealed') return accept(null);
  const own = countingBids(writtenBids(book, sale)).filter(({ lotId }) => lotId === lot.id);
  const lotNo = lotNoOf(lot);
  const best = awardLot({ lotNo, minimumCents: null }, own);
  if (best.kind !== 'awarded') return refuse('not_allowed', `Lot ${lotNo} has no bid: record the no-sale.`, 'lotNo');
  if (best.buyerNo === buyerNo && best.priceCents === priceCents) return accept(null);
  const who = `buyer ${best.buyerNo} at ${showMoney(best.priceCents)}`;
  return refuse('not_allowed', `The best bid on lot ${lotNo} is that of ${who}: sell it by that bid.`, 'buyerNo');
}

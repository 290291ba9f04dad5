/** A sale of written bids: in which phase it is, the lots with their bids, and what waits for an answer. */

import { lotById, type SaleRow } from '#db/book/find.ts';
import { newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { momentInWords } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { showMoney, ZERO } from '#lib/money/money.ts';
import { END_WORDS, endsOf, type Phase, phaseOf, phaseSentence } from '#lib/outcome/written.ts';
import { groupBy } from '#lib/result/text.ts';
import { priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import { countingBids, type WrittenBid, writtenBids } from './bids.ts';
import { type BlockBuyer, buyersOf } from './block-view.ts';
import { type CalledLot, calledLots } from './called.ts';
import { type BidQuestion, bidTimes, type LotToAward, lotsToAward } from './written.ts';

const EVERY_LOT = 100_000;

export interface WrittenLot {
  readonly lotNo: string;
  readonly sellerNo: number;
  readonly goodsName: string;
  /** `32 pieces`. */
  readonly quantity: string;
  /** `8.00 each`, or empty. */
  readonly minimum: string;
  /** What a price on it is for: `each`, `the lot`, `/ lb` or `/ oz`. */
  readonly unit: string;
  /** The bid of each buyer that counts, by buyer number: of several the highest. */
  readonly bids: Readonly<
    Record<number, { readonly bidId: number; readonly price: string; readonly handedIn: string }>
  >;
}

/** A lot whose best bid its seller has to accept or keep. */
interface WaitingLot extends Pick<WrittenLot, 'lotNo' | 'sellerNo' | 'goodsName' | 'minimum' | 'unit'> {
  readonly price: string;
  readonly buyerNo: number;
}

/** A bid with how it ended; `end` is empty while that is open. */
interface EndedBid {
  readonly bidId: number;
  readonly buyerNo: number;
  readonly lotNo: string;
  readonly price: string;
  readonly handedIn: string;
  readonly end: string;
}

export interface WrittenView {
  readonly line: number;
  readonly saleId: number;
  readonly stage: SaleRow['stage'];
  readonly phase: Phase;
  readonly buyers: readonly BlockBuyer[];
  readonly lots: readonly WrittenLot[];
  readonly bids: number;
  /** What has to be answered before the lots are awarded; empty before the closing, when nobody is told who leads. */
  readonly questions: readonly (BidQuestion & { readonly price: string })[];
  /** Lots that are open after the awarding and that a bid takes: off hold since, or offered again. */
  readonly toAward: number;
  /** These three are empty before the lots are awarded. */
  readonly waiting: readonly WaitingLot[];
  readonly noBid: readonly string[];
  readonly onHold: readonly string[];
  /** How every bid ended, by buyer and lot; empty before the lots are awarded. */
  readonly ended: readonly EndedBid[];
  /** ISO 8601, UTC; null where nobody has said when. */
  readonly closesAt: string | null;
  readonly answerBy: string | null;
  readonly noAnswer: SaleRow['noAnswer'];
  /** When the bids were closed by hand; null before. */
  readonly closedAt: string | null;
  /** The times as people read them; empty where there is none. */
  readonly words: Readonly<Record<'closesAt' | 'answerBy' | 'closedAt' | 'awardedAt', string>>;
  /** Of the association: times are typed by its clock. */
  readonly timeZone: string;
  readonly called: readonly CalledLot[];
}

/** `now` is an ISO 8601 time in UTC: the clock closes the bids, and no entry of the log says so. */
export function writtenView(book: Book, sale: SaleRow, now: string): WrittenView {
  const bids = writtenBids(book, sale);
  const found = lotsToAward(book, { ...sale, stage: 'selling', bidding: 'sealed' }, bids);
  const lots = found.ok ? found.value : [];
  const { bidsCloseAt: closesAt, sellersAnswerBy: answerBy, bidsClosedAt: closedAt, noAnswer } = sale;
  const { timeZone, ...times } = bidTimes({ book, at: now }, sale);
  const awarded = sale.bidsAwardedAt !== null;
  const waiting = awarded ? lots.flatMap((lot) => waitingLot(lot)) : [];
  const phase = phaseOf({ ...times, open: lots.length, waiting: waiting.length });
  const say = (at: string | null) => (at === null || at === '' ? '' : momentInWords(at, timeZone));
  const numbers = (kind: string) =>
    awarded ? lots.flatMap(({ award, lot }) => (award.kind === kind ? [lot.lotNo] : [])) : [];
  const questions = lots.flatMap((one) =>
    one.questions.map((asked) => ({
      ...asked,
      price: 'priceCents' in one.award ? showMoney(one.award.priceCents) : '',
    })),
  );
  const called = calledLots(book, sale.id, EVERY_LOT);
  const counting = countingBids(bids);
  return {
    ...{ line: newestLine(book), saleId: sale.id, stage: sale.stage, phase, bids: counting.length, called },
    buyers: buyersOf(book, sale.id),
    lots: lots.map((lot) => writtenLot(lot, counting, say)),
    questions: phase === 'taking' ? [] : questions,
    toAward: numbers('awarded').length,
    ...{ waiting, noBid: numbers('no_bid'), onHold: numbers('on_hold') },
    ended: awarded
      ? endedBids(book, { bids, called, lots }).map((bid) => ({ ...bid, handedIn: say(bid.handedIn) }))
      : [],
    ...{ closesAt, answerBy, closedAt, noAnswer, timeZone },
    words: {
      closesAt: say(closesAt),
      answerBy: say(answerBy),
      closedAt: say(closedAt),
      awardedAt: say(sale.bidsAwardedAt),
    },
  };
}

/** In which phase a written sale is at a moment, and the same as a sentence for the hall. */
export function writtenPhase(book: Book, sale: SaleRow, now: string): { readonly phase: Phase; readonly says: string } {
  const found = lotsToAward(book, { ...sale, stage: 'selling', bidding: 'sealed' }, writtenBids(book, sale));
  const lots = found.ok ? found.value : [];
  const waiting = lots.filter(({ award }) => award.kind === 'below_minimum').length;
  const { timeZone, ...times } = bidTimes({ book, at: now }, sale);
  const phase = phaseOf({ ...times, open: lots.length, waiting });
  const say = (at: string | null) => (at === null ? '' : momentInWords(at, timeZone));
  const words = { closesAt: say(sale.bidsCloseAt), answerBy: say(sale.sellersAnswerBy) };
  return { phase, says: phaseSentence(phase, words) };
}

function writtenLot({ lot, row }: LotToAward, bids: readonly WrittenBid[], say: (at: string) => string): WrittenLot {
  const own = bids.filter((bid) => bid.lotId === lot.lotId).sort((a, b) => a.priceCents - b.priceCents);
  const byBuyer = own.map(({ buyerNo, bidId, priceCents, receivedAt }) => {
    return [buyerNo, { bidId, price: showMoney(priceCents), handedIn: say(receivedAt) }];
  });
  return { ...lotWords({ lot, row }), bids: Object.fromEntries(byBuyer) };
}

function lotWords({ lot, row }: Pick<LotToAward, 'lot' | 'row'>) {
  const { minimumCents, by } = row;
  const minimum = minimumCents === null ? '' : priceFor(minimumCents, by).words;
  const { unit } = priceFor(minimumCents ?? ZERO, by);
  return { ...pick(lot, ['lotNo', 'sellerNo', 'goodsName']), minimum, unit, quantity: quantityFor(row).words };
}

function waitingLot({ award, ...found }: LotToAward): WaitingLot[] {
  if (award.kind !== 'below_minimum') return [];
  return [{ ...lotWords(found), price: showMoney(award.priceCents), buyerNo: award.buyerNo }];
}

interface Ended {
  readonly bids: readonly WrittenBid[];
  readonly called: readonly CalledLot[];
  readonly lots: readonly LotToAward[];
}

/** Every written bid of a sale with how it ended, by buyer and in the order of the lots. */
function endedBids(book: Book, { bids, called, lots }: Ended): EndedBid[] {
  const outcomes = new Map(called.map((one) => [one.lotId, one]));
  const waits = new Set(lots.flatMap(({ row, award }) => (award.kind === 'below_minimum' ? [row.id] : [])));
  const byLot = groupBy(bids, ({ lotId }) => lotId);
  const rows = [...byLot].flatMap(([lotId, own]) => {
    const minimumCents = lotById(book, lotId)?.minimumCents ?? null;
    const ends = endsOf(own, { minimumCents, outcome: outcomes.get(lotId) ?? null, waits: waits.has(lotId) });
    return own.map((bid) => ({ bid, end: ends.get(bid.bidId) ?? null }));
  });
  rows.sort(
    (a, b) => a.bid.buyerNo - b.bid.buyerNo || compareLotNo(a.bid.lotNo, b.bid.lotNo) || a.bid.bidId - b.bid.bidId,
  );
  return rows.map(({ bid: { bidId, buyerNo, lotNo, priceCents, receivedAt }, end }) => ({
    ...{ bidId, buyerNo, lotNo, price: showMoney(priceCents), handedIn: receivedAt },
    end: end === null ? '' : END_WORDS[end],
  }));
}

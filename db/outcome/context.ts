/** What the book knows about a lot at the moment an outcome is proposed for it. */
import { type BuyerRow, buyerByNumber, type LotRow, lotNoOf, rowBy, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { type EarlierPrices, earlierPrices } from '#db/sale/goods.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { log, partner } from '#db/schema/index.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { momentInWords, timeInWords } from '#lib/date/date.ts';
import { decideBidsOver } from '#lib/outcome/bid.ts';
import type { OutcomeContext } from '#lib/outcome/decide-outcome.ts';
import { usualPrices } from '#lib/outcome/pace.ts';
import { type OutcomeRow, outcomeInWords, standingOutcomeOf } from './queries.ts';

/** The lot that was called, and the buyer number that was said with it. */
export interface LotUnderHammer {
  readonly sale: SaleRow;
  readonly lot: LotRow;
  readonly buyerNo: number | null;
  /** ISO 8601, UTC: when it is said. Left out where nothing is said of the lot yet. */
  readonly at?: string;
  /** ISO 8601, UTC: when the command is given. Left out where none is. */
  readonly now?: string;
  /** What such goods brought before, where it was read already. */
  readonly earlier?: EarlierPrices | null;
}

export interface OutcomeAbout extends Pick<LotUnderHammer, 'sale' | 'lot'> {
  readonly buyer: BuyerRow | undefined;
  readonly standing: OutcomeRow | undefined;
  readonly scene: OutcomeContext;
}

export function outcomeAbout(book: Book, called: LotUnderHammer): OutcomeAbout {
  const { sale, lot, buyerNo } = called;
  const buyer = buyerNo === null ? undefined : buyerByNumber(book, sale.id, buyerNo);
  const standing = standingOutcomeOf(book, lot.id);
  const timeZone = timeZoneOf(book);
  const earlier = called.earlier === undefined ? earlierPrices(book, sale, lot) : called.earlier;
  const scene: OutcomeContext = {
    lotNo: lotNoOf(lot),
    stage: sale.stage,
    standing: standing ? outcomeInWords(book, standing) : null,
    takenDown: standing ? takenDownBy(book, standing) : null,
    answerWasBy: standing ? null : passedAnswerTime(called, timeZone),
    bidsRun: bidsThatRun(called, standing, timeZone),
    holds: holdsOfLotId(book, lot).map(({ message }) => message),
    minimumCents: lot.minimumCents,
    priceStepCents: sale.priceStepCents,
    usual: earlier && usualPrices(earlier),
    buyer: buyer ? { buyerNo: buyer.buyerNo, cleared: buyer.cleared, sellsThisLot: sells(book, buyer, lot) } : null,
  };
  return { sale, lot, buyer, standing, scene };
}

/** The time until which sellers answer written bids, once it is past. */
function passedAnswerTime({ sale, at }: LotUnderHammer, timeZone: string): string | null {
  const { bidding, sellersAnswerBy, noAnswer } = sale;
  // Where no answer means that the bid is accepted, accepting is never late.
  if (bidding !== 'sealed' || noAnswer === 'accepted' || sellersAnswerBy === null || at === undefined) return null;
  if (Date.parse(at) <= Date.parse(sellersAnswerBy)) return null;
  return momentInWords(sellersAnswerBy, timeZone);
}

/** A lot that was sold or passed is corrected at any time; one that is open or withdrawn goes by bids that are over. */
function bidsThatRun({ sale, now }: LotUnderHammer, standing: OutcomeRow | undefined, timeZone: string) {
  if (sale.bidding !== 'sealed' || sale.stage !== 'selling' || now === undefined) return null;
  if (standing !== undefined && standing.kind !== 'withdrawn') return null;
  const { bidsCloseAt: closeAt, bidsClosedAt: closedAt, bidsAwardedAt: awardedAt } = sale;
  const bids = { at: now, closeAt, closedAt, awardedAt, timeZone };
  const [sold, passed] = [decideBidsOver(bids, 'accept'), decideBidsOver(bids, 'pass')];
  return { sold: sold.ok ? null : sold, passed: passed.ok ? null : passed };
}

const findLine = query(({ db }) =>
  db.select({ worker: log.worker, at: log.at }).from(log).where(equals(log.seq, 'line')),
);

/** Who took an outcome down, and when by the clock that the whole book goes by. */
function takenDownBy(book: Book, { line, at: hammerAt }: OutcomeRow): string {
  // The outcome has the time of the hammer, which may have been entered later from paper.
  const { worker, at } = findLine(book).get({ line }) ?? { worker: 'this entry', at: hammerAt };
  return `${worker} at ${timeInWords(at, timeZoneOf(book))}`;
}

const partnerOf = rowBy(partner, 'sellerId', 'personId');

function sells(book: Book, buyer: BuyerRow, lot: LotRow): boolean {
  return partnerOf(book, lot.sellerId, buyer.personId) !== undefined;
}

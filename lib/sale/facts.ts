/**
 * What people said and did at one sale, as plain values: the input of every sum in `lib/`.
 * The book reads these shapes out of its tables and the exchange folder is a spelling of them;
 * nothing here is worked out from anything else.
 */
import type { BuyerInFolder } from '#lib/buyer/fields.ts';
import type { LotInFolder } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import type { Rate } from '#lib/money/rate.ts';
import type { PersonFacts } from '#lib/person/fields.ts';
import type { GoodsInFolder } from './goods-fields.ts';
import type { SaleDay, SaleTerms } from './terms-fields.ts';

/** What a price and a minimum stand for: one piece, the whole lot, a pound or an ounce. */
export type By = LotInFolder['by'];

export type Membership = 'member' | 'guest';
/** `bought_back`: the seller's own bid was the last. `unpaid`: the buyer of a sold lot never paid for it. */
export type OutcomeKind = 'sold' | 'passed' | 'withdrawn' | 'bought_back' | 'unpaid';
/** What becomes of the fur of a lot that was not paid for: it goes back, the association keeps it, or it is called again. */
export type Fate = 'seller' | 'association' | 'again';
export type Bidding = SaleDay['bidding'];
export type Stage = 'planned' | 'intake' | 'selling' | 'settling' | 'closed';
export type ChargeKind = 'dues' | 'advance' | 'adjustment';
export type ChargeHow = 'deducted' | 'cash';
export type Direction = 'in' | 'out';
/** What is handed over. */
export type Handed = 'cash' | 'check' | 'card' | 'other';
/**
 * How an account is paid. No money moves where what a person buys is set against what they are owed, where a debt is
 * given up, and where the fee for a check that came back is charged, which is a payment out that nobody gets.
 */
export type Method = Handed | 'set_off' | 'written_off' | 'check_fee';
export type TakingKind = 'raffle' | 'door' | 'donation' | 'food' | 'other';
export type TagCondition = 'intact' | 'broken' | 'replacement';

export type CommissionRates = Readonly<Record<Membership, Rate>>;

/** The terms of one sale. Rates are percentages as decimal text; money is whole cents. */
export interface Terms extends SaleTerms {
  readonly commission: CommissionRates;
  readonly commissionOverrides: Readonly<Record<string, CommissionRates>>;
}

export interface Sale extends SaleDay {
  readonly terms: Terms;
}

export type Goods = GoodsInFolder;

export interface Person extends PersonFacts {
  readonly personId: string;
}

export interface Partner {
  readonly personId: string;
  readonly memberUntil: string | null;
  readonly parts: number;
}

/** One seller number: one person, or partners who share what it brings by parts, in the order given. */
export interface Seller {
  readonly sellerNo: number;
  readonly partners: readonly Partner[];
}

export interface Buyer extends BuyerInFolder {
  readonly buyerNo: number;
  readonly personId: string;
  readonly cleared: boolean;
}

/** What makes a lot's quantity: pieces, and thousandths of the unit in `by`. */
export type Measured = Pick<LotInFolder, 'by' | 'count' | 'weightThousandths'>;

export interface Lot extends LotInFolder {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
}

/**
 * The outcome that stands for a lot. A sold lot has a price and a buyer, and so has one that was not paid for; one that
 * its seller bought back has a price alone; the others have neither.
 */
export interface Outcome {
  readonly lotNo: LotNo;
  readonly kind: OutcomeKind;
  readonly priceCents: Cents | null;
  readonly buyerNo: number | null;
  /** Of a lot that was not paid for alone. One that is offered again is still to be called and has no outcome. */
  readonly fate?: Exclude<Fate, 'again'>;
}

export interface Charge {
  readonly sellerNo: number;
  readonly kind: ChargeKind;
  readonly amountCents: Cents;
  readonly how: ChargeHow;
  readonly note: string;
}

export interface Bid {
  readonly lotNo: LotNo;
  readonly buyerNo: number;
  readonly priceCents: Cents;
  readonly receivedAt: string;
}

export interface Payment {
  readonly direction: Direction;
  readonly buyerNo: number | null;
  readonly sellerNo: number | null;
  readonly personId: string | null;
  readonly method: Method;
  readonly amountCents: Cents;
  readonly reference: string;
  readonly paidAt: string;
}

/** Money that came in at the sale and is nobody's purchase, fee or dues. */
export interface Taking {
  readonly kind: TakingKind;
  readonly method: Handed;
  readonly amountCents: Cents;
  readonly note: string;
  readonly takenAt: string;
}

/** What a processor kept of money that arrived at the bank. */
export interface CardFee {
  readonly method: 'card' | 'other';
  /** ISO 8601 date. */
  readonly day: string;
  readonly feeCents: Cents;
}

export interface SaleFacts {
  readonly sale: Sale;
  /** IANA: where the association is. The day of a payment is the day there. */
  readonly timeZone: string;
  readonly goods: readonly Goods[];
  readonly sellers: readonly Seller[];
  readonly buyers: readonly Buyer[];
  readonly lots: readonly Lot[];
  /** At most one outcome a lot: the one that stands. */
  readonly outcomes: readonly Outcome[];
  readonly charges: readonly Charge[];
  readonly payments: readonly Payment[];
  readonly takings: readonly Taking[];
  readonly cardFees: readonly CardFee[];
}

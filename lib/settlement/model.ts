/**
 * A finished settlement sheet: every word and every figure as it is printed, and beside each figure its whole cents.
 * It is plain JSON. The page, the PDF and the CSV are views of it, and an issued sheet is kept as exactly this.
 */
import type { LotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import type { ChargeHow, ChargeKind, Membership, Outcome, OutcomeKind, TagCondition } from '#lib/sale/facts.ts';
import type { SellerSettlement } from './settlement.ts';

/** An amount with the text that stands for it on paper; the text is empty where the amount plays no part. */
export interface Figure {
  readonly cents: Cents;
  readonly words: string;
}

/** A number with its unit apart, so that a column can align both: `7.35` and `oz`, `112.75` and `each`. */
export interface Measure {
  readonly figure: string;
  readonly unit: string;
  readonly words: string;
}

export interface SheetPartner {
  readonly personId: string;
  readonly name: string;
  /** Street and town, without the name. */
  readonly address: readonly string[];
  readonly licence: string;
  readonly member: string;
}

export interface SheetLot {
  readonly lotNo: LotNo;
  readonly outcome: OutcomeKind | 'waiting';
  /** What became of the fur of a lot that was not paid for. */
  readonly fate?: Outcome['fate'];
  readonly donated: boolean;
  readonly goods: string;
  /** Size, grade and section, as far as they were given. */
  readonly detail: string;
  readonly note: string;
  readonly quantity: Measure;
  /** The hammer price where there was one, the minimum of any other lot; no figure where there is neither. */
  readonly price: Measure & { readonly kind: 'hammer' | 'minimum' | 'none'; readonly cents: Cents | null };
  readonly amount: Figure;
  readonly commission: Figure;
  /** How the commission came about: `3.75 %`, or the least commission of the terms. */
  readonly commissionHow: string;
  readonly fees: Figure;
  /** What the fees are made of where there is more than one. */
  readonly feesHow: string;
  readonly net: Figure;
}

export type LotGroupKind = OutcomeKind | 'donated' | 'waiting';

export interface LotGroup {
  readonly kind: LotGroupKind;
  readonly title: string;
  readonly lots: readonly SheetLot[];
}

/** One line of the reckoning: what it begins with, what is taken off or put on, and what is left. */
export interface SheetStep {
  readonly kind: 'start' | 'less' | 'plus' | 'sum';
  readonly label: string;
  /** The amount without its sign, except in a sum. */
  readonly words: string;
  /** What it does to the sum: negative where it is taken off. */
  readonly effectCents: Cents;
}

export interface SheetCharge {
  readonly kind: ChargeKind;
  readonly how: ChargeHow;
  readonly label: string;
  readonly amount: Figure;
}

export interface SheetShare {
  readonly personId: string;
  readonly name: string;
  readonly parts: number;
  /** `2 of 3 parts`, empty for somebody alone. */
  readonly partsWords: string;
  /** Negative cents where the partner owes; the words are the amount without its sign. */
  readonly share: Figure;
  /** `Paid to Dana Cole, guardian of Sam Cole`; left out where it is paid to the partner. */
  readonly paidTo?: string;
}

export interface SheetTotals extends Omit<SellerSettlement, 'sellerNo' | 'membership' | 'rows' | 'shares'> {
  /** What the lots leave after commission and fees, before the seller number fee and the charges. */
  readonly lotNetsCents: Cents;
}

export interface SheetTags {
  readonly lotNo: LotNo;
  readonly goods: string;
  readonly tags: readonly { readonly tag: string; readonly condition: TagCondition; readonly words: string }[];
}

/** The newest line of the log when the sheet was made: a past rewritten later no longer fits it. */
export interface SheetHead {
  readonly seq: number;
  readonly hash: string;
  readonly words: string;
}

export interface SheetSale {
  readonly name: string;
  readonly heldOn: string;
  readonly heldOnWords: string;
  readonly venue: string;
  readonly season: string;
  readonly currency: string;
  readonly words: string;
}

export interface SettlementSheet {
  readonly paper: 'settlement-sheet';
  readonly version: 2;
  readonly title: string;
  /** Null on a preview. */
  readonly number: number | null;
  readonly numberWords: string;
  readonly preview: boolean;
  readonly issuedOn: string;
  readonly issuedWords: string;
  readonly head: SheetHead;
  readonly association: { readonly name: string; readonly address: readonly string[] };
  readonly sale: SheetSale;
  readonly sellerNo: number;
  readonly membership: Membership;
  readonly membershipWords: string;
  readonly partners: readonly SheetPartner[];
  /** The lots that the sum is made of: sold, bought back and passed. */
  readonly counted: readonly LotGroup[];
  readonly countedSum: ({ readonly label: string } & Pick<SheetLot, 'amount' | 'commission' | 'fees' | 'net'>) | null;
  /** The lots that leave the sum alone: given to the association, not paid for, withdrawn, not called. */
  readonly beside: readonly LotGroup[];
  readonly charges: readonly SheetCharge[];
  readonly steps: readonly SheetStep[];
  /** What was charged and paid in cash, so that it is not in the sum. */
  readonly paidInCash: readonly string[];
  readonly totals: SheetTotals;
  readonly result: {
    /** `net` is printed behind a correction, which says what is left to pay. */
    readonly kind: 'pays' | 'owes' | 'even' | 'net';
    readonly label: string;
    /** Without its sign: the label says who owes whom. */
    readonly words: string;
    readonly sentence: string;
  };
  readonly sharesTitle: string;
  readonly shares: readonly SheetShare[];
  readonly remarks: readonly string[];
  readonly tags: readonly SheetTags[];
  readonly terms: readonly string[];
  readonly caution: string;
}

/** What the papers of the check-in table and the Block are made from: the lots as they stand, and the ground of the sale. */
import type { LotSaid } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import type { OutcomeKind, Sale, TagCondition } from '#lib/sale/facts.ts';
import type { SheetAssociation } from '#lib/settlement/parties.ts';

export interface PaperTag {
  readonly tag: string;
  readonly condition: TagCondition;
}

export interface PaperLot extends Omit<LotSaid, 'goods' | 'takenIn'> {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly exportTag: boolean;
  /** The association's own caution for these goods, or empty. */
  readonly caution: string;
  readonly tags: readonly PaperTag[];
  /** One sentence for each thing that keeps the lot from being put up; empty for a lot that was called. */
  readonly holds: readonly string[];
  /** The bids left with the clerk that still count, the highest first. The price is text, standing for what `by` says. */
  readonly leftBids: readonly { readonly buyerNo: number; readonly price: string }[];
  readonly outcome: {
    readonly kind: OutcomeKind;
    readonly priceCents: Cents | null;
    readonly amountCents: Cents | null;
    readonly buyerNo: number | null;
  } | null;
}

/** What stands above every paper: whose it is, its day, and the newest line of the log. */
export interface PaperGround {
  readonly association: SheetAssociation;
  readonly issuedOn: string;
  readonly head: { readonly seq: number; readonly hash: string };
}

export interface PaperContext extends PaperGround {
  readonly saleId: number;
  readonly sale: Sale;
  /** In which phase a written sale is, as a sentence, on the papers that hang in the hall. */
  readonly phase?: string;
}

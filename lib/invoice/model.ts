/**
 * The finished papers of a buyer: every word and every figure as it is printed, and beside each figure its whole cents.
 * They are plain JSON. The page, the PDF and the CSV are views of them, and an issued invoice is kept as exactly this.
 */
import type { LotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import type { By, Method } from '#lib/sale/facts.ts';
import type {
  Figure,
  Measure,
  SheetHead,
  SheetPartner,
  SheetSale,
  SheetStep,
  SheetTags,
} from '#lib/settlement/model.ts';
import type { BuyerInvoice } from './invoice.ts';

export interface BuyerPaperHead {
  readonly title: string;
  readonly issuedOn: string;
  readonly issuedWords: string;
  readonly association: { readonly name: string; readonly address: readonly string[] };
  readonly sale: SheetSale;
  readonly buyer: {
    readonly buyerNo: number;
    readonly name: string;
    readonly address: readonly string[];
    readonly licence: string;
    /** `No sales tax: exemption TX-4471`, or empty for a buyer who pays it. */
    readonly exemption: string;
  };
  readonly remarks: readonly string[];
  readonly caution: string;
}

export interface InvoiceLot {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goods: string;
  readonly detail: string;
  readonly quantity: Measure;
  readonly price: Measure & { readonly cents: Cents };
  readonly amount: Figure;
  readonly premium: Figure;
  readonly tags: SheetTags['tags'];
}

export interface InvoiceTotals extends Omit<BuyerInvoice, 'buyerNo' | 'taxExempt' | 'rows'> {
  /** What had been paid when the invoice was made, and what was left: below nothing, the association owed the buyer. */
  readonly paidCents: Cents;
  readonly owingCents: Cents;
}

export interface ChangedSum {
  readonly label: string;
  readonly before: Figure;
  readonly after: Figure;
  readonly difference: Figure;
}

export interface ChangedLot extends Omit<ChangedSum, 'label'> {
  readonly lotNo: LotNo;
  readonly what: 'added' | 'taken_off' | 'changed';
  readonly words: string;
  /** Quantity and price, empty on the side where the lot is not. */
  readonly beforeWords: string;
  readonly afterWords: string;
}

export interface InvoiceCorrection {
  readonly number: number;
  readonly words: string;
  readonly lots: readonly ChangedLot[];
  /** Lots, premium, tax and total; the differences of the first three add up to that of the last. */
  readonly sums: readonly ChangedSum[];
  readonly remarks: readonly string[];
}

export interface InvoicePaper extends BuyerPaperHead {
  readonly paper: 'invoice';
  readonly version: 2;
  /** Null on a preview. */
  readonly number: number | null;
  readonly numberWords: string;
  readonly preview: boolean;
  readonly head: SheetHead;
  readonly lots: readonly InvoiceLot[];
  /** From the lots to the total: the effects of all but the last add up to the last. */
  readonly steps: readonly SheetStep[];
  readonly payments: readonly { readonly label: string; readonly amount: Figure }[];
  readonly totals: InvoiceTotals;
  /** The number of the exemption, or null for a buyer who pays sales tax. */
  readonly exemptNo: string | null;
  readonly result: { readonly kind: 'owes' | 'even' | 'credit'; readonly label: string; readonly words: string };
  readonly corrects: InvoiceCorrection | null;
  readonly terms: readonly string[];
}

export interface ReceiptPaper extends BuyerPaperHead {
  readonly paper: 'payment-receipt';
  readonly version: 2;
  /** The payment's own number in the book. */
  readonly number: number;
  readonly numberWords: string;
  readonly direction: 'in' | 'out';
  readonly method: Method;
  /** What stands beside the amount: `Received`, `Fee charged`. */
  readonly resultLabel: string;
  /** Who signs; empty where no money changed hands. */
  readonly signature: string;
  readonly amount: Figure;
  /** What is owed after this payment, and where the invoice was corrected since, that; empty on a void receipt. */
  readonly balance: readonly string[];
  /** What stands beside each other as word and value: by, reference, when, who took it. */
  readonly facts: readonly { readonly label: string; readonly words: string }[];
  /** `VOID` with the reason, or empty. */
  readonly voided: string;
}

export type PurchaseSeller = Pick<SheetPartner, 'name' | 'address' | 'licence'>;

export interface PurchaseRow {
  readonly lotNo: LotNo;
  readonly date: string;
  readonly dateWords: string;
  readonly sellerNo: number;
  readonly sellers: readonly PurchaseSeller[];
  readonly goods: string;
  readonly scientificName: string;
  readonly by: By;
  readonly count: number | null;
  readonly quantity: Measure;
  readonly price: Measure & { readonly cents: Cents };
  /** Where the price was for the whole lot: what one piece comes to, rounded half up. */
  readonly each: Figure;
  readonly amount: Figure;
  /** The State of take, ISO 3166-2. */
  readonly takenIn: string;
  readonly tags: readonly { readonly tag: string; readonly exportable: boolean; readonly words: string }[];
}

export interface PurchaseRecord extends BuyerPaperHead {
  readonly paper: 'purchase-record';
  readonly version: 2;
  readonly rows: readonly PurchaseRow[];
  readonly kinds: readonly { readonly goods: string; readonly words: string; readonly amount: Figure }[];
  readonly total: Figure;
}

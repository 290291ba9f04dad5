/** Whether an invoice may be issued now. */
import type { Stage } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

/** What the book knows of one buyer number when its invoice is asked for. */
export interface InvoiceScene {
  readonly stage: Stage;
  readonly buyerNo: number;
  /** How many lots it has bought, by what stands now. */
  readonly lots: number;
  /** The newest invoice it has already, and whether that still says what was bought; null where it has none. */
  readonly issued: { readonly number: number; readonly stillTrue: boolean } | null;
}

/** An invoice that no longer says what was bought is corrected by a further one, also where nothing is left of it. */
export function decideInvoice({ stage, buyerNo, lots, issued }: InvoiceScene): Result<null> {
  if (stage !== 'selling' && stage !== 'settling') {
    const next = stage === 'closed' ? 'It is closed: reopen it first.' : 'Sell the lots first.';
    return refuse('wrong_stage', `The sale is in the stage “${stage}”, where no invoice is issued. ${next}`, 'saleId');
  }
  if (issued?.stillTrue) {
    const what = `Invoice ${issued.number} still says what buyer ${buyerNo} has bought.`;
    return refuse('already', `${what} Print that one again; an issued invoice is never changed.`, 'buyerNo');
  }
  if (issued === null && lots === 0) {
    return refuse('missing', `Buyer ${buyerNo} has bought nothing yet: there is nothing to bill.`, 'buyerNo');
  }
  return accept(null);
}

import { PaperLink } from '#app/ui/paper-link.tsx';
import type { IssuedInvoice } from '#db/queries/invoices.ts';
import { InvoiceView } from './invoice-view.tsx';

interface OlderInvoicesProps {
  readonly issued: readonly IssuedInvoice[];
  /** Where the invoices of this buyer are printed. */
  readonly paper: string;
}

/** The invoices that a later one took the place of, each as it was handed over. */
export function OlderInvoices({ issued, paper }: OlderInvoicesProps) {
  return issued.map(({ number, invoice }) => (
    <details key={number}>
      <summary>
        {invoice.numberWords}: {invoice.issuedWords}
      </summary>
      <InvoiceView invoice={invoice} />
      <PaperLink href={`${paper}&number=${number}`} name={`invoice-number-${number}.pdf`}>
        Print invoice {number}
      </PaperLink>
    </details>
  ));
}

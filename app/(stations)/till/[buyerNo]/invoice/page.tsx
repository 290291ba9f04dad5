import type { Metadata } from 'next';
import { GiveButton } from '#app/(stations)/give-forms.tsx';
import { BuyerFrame, type BuyerPageProps, buyerContext } from '#app/(stations)/till/till-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { Notice } from '#app/ui/notice.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { type IssuedInvoice, issuedInvoices, previewInvoice, saysWhatIs } from '#db/invoice/queries.ts';
import { InvoiceView } from './invoice-view.tsx';

export const metadata: Metadata = { title: 'Invoice' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, file } = await buyerContext(props);
  const issued = issuedInvoices(book, sale.id, { buyerNo });
  const newest = issued.at(-1);
  const changed = newest !== undefined && !saysWhatIs(newest.invoice, file);
  const nothing = newest === undefined && file.lots.length === 0;
  const preview =
    newest === undefined || changed ? previewInvoice(book, { file, before: newest?.invoice }, today(book)) : null;
  const older = issued.slice(0, changed ? undefined : -1).reverse();
  const paper = `/api/papers/invoice?sale=${sale.id}&buyer=${buyerNo}`;
  return (
    <BuyerFrame {...{ association, sale, buyerNo }} here="/invoice">
      <InvoiceView invoice={preview ?? newest?.invoice ?? null} />
      {nothing && <Notice kind="plain" title="This buyer has bought nothing yet: there is nothing to bill." />}
      <div className="acts">
        {preview && !nothing && (
          <GiveButton
            className="act"
            command="invoice.issue"
            input={{ saleId: sale.id, buyerNo }}
            label={`Invoice of buyer ${buyerNo}`}
          >
            {newest ? `Issue the correction of invoice ${newest.number}` : 'Issue the invoice'}
          </GiveButton>
        )}
        <PaperLink href={preview ? `${paper}&preview=yes` : paper} name={`invoice-${sale.id}-buyer-${buyerNo}.pdf`}>
          {preview ? 'Print a preview' : 'Print the invoice'}
        </PaperLink>
      </div>
      <OlderInvoices issued={older} paper={paper} />
    </BuyerFrame>
  );
}

/** The invoices that a later one took the place of, each as it was handed over. */
function OlderInvoices({ issued, paper }: { readonly issued: readonly IssuedInvoice[]; readonly paper: string }) {
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

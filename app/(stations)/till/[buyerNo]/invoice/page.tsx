import type { Metadata } from 'next';
import { GiveButton } from '#app/(stations)/give-forms.tsx';
import { MoneyCells, MoneyRow, StepRows } from '#app/(stations)/statement-parts.tsx';
import { BuyerFrame, type BuyerPageProps, buyerContext } from '#app/(stations)/till/till-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { Mark } from '#app/ui/marks.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import { issuedInvoices, previewInvoice, saysWhatIs } from '#db/invoice/queries.ts';
import type { InvoiceCorrection, InvoicePaper } from '#lib/invoice/model.ts';

export const metadata: Metadata = { title: 'Invoice' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, file } = await buyerContext(props);
  const issued = issuedInvoices(book, sale.id, { buyerNo });
  const newest = issued.at(-1);
  const changed = newest !== undefined && !saysWhatIs(newest.invoice, file);
  const nothing = newest === undefined && file.lots.length === 0;
  const preview =
    newest === undefined || changed ? previewInvoice(book, { file, before: newest?.invoice }, today(book)) : null;
  // The invoices that a later one took the place of, each as it was handed over.
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
      {older.map(({ number, invoice }) => (
        <details key={number}>
          <summary>
            {invoice.numberWords}: {invoice.issuedWords}
          </summary>
          <InvoiceView invoice={invoice} />
          <PaperLink href={`${paper}&number=${number}`} name={`invoice-number-${number}.pdf`}>
            Print invoice {number}
          </PaperLink>
        </details>
      ))}
    </BuyerFrame>
  );
}

/** An invoice on the screen: the same finished model as the paper, and no sum of its own. */
function InvoiceView({ invoice }: { readonly invoice: InvoicePaper | null }) {
  if (invoice === null) return null;
  const { buyer, result } = invoice;
  return (
    <article className="sheet">
      <h1>
        {invoice.title}, buyer {buyer.buyerNo}, {buyer.name}
      </h1>
      <p>
        <Mark tone={invoice.preview ? 'open' : 'done'}>{invoice.numberWords}</Mark> {invoice.issuedWords}
      </p>
      {buyer.licence !== '' && <p>{buyer.licence}</p>}
      {buyer.exemption !== '' && <p>{buyer.exemption}</p>}
      {invoice.corrects && <Correction corrects={invoice.corrects} />}
      <p>{result.label}</p>
      <p className="figure-large">
        {result.words} <small>{invoice.sale.currency}</small>
      </p>
      <Lots invoice={invoice} />
      <Totals invoice={invoice} />
      {invoice.terms.map((sentence) => (
        <p key={sentence} className="small">
          {sentence}
        </p>
      ))}
      <p className="small">{invoice.caution}</p>
      <p className="small soft">{invoice.head.words}</p>
    </article>
  );
}

function Lots({ invoice: { lots, totals } }: { readonly invoice: InvoicePaper }) {
  if (lots.length === 0) return <p>No lots.</p>;
  const premium = totals.premiumCents !== 0;
  return (
    <ScrollRegion label="Lots">
      <table>
        <ColumnHeads words={['Lot', 'Goods and export tags']} money={premium ? ['Premium', 'Amount'] : ['Amount']} />
        <tbody>
          {lots.map((lot) => (
            <tr key={lot.lotNo}>
              <th scope="row">{lot.lotNo}</th>
              <td>
                {lot.goods}
                <div className="small">
                  {lot.quantity.words} at {lot.price.words}
                </div>
                {lot.detail !== '' && <div className="small soft">{lot.detail}</div>}
                {lot.tags.map(({ words }) => (
                  <div key={words} className="small">
                    {words}
                  </div>
                ))}
              </td>
              {premium && <td className="money">{lot.premium.words}</td>}
              <td className="money">{lot.amount.words}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

function Totals({ invoice: { steps, payments, result } }: { readonly invoice: InvoicePaper }) {
  return (
    <table className="reckoning at-end">
      <caption className="visually-hidden">Reckoning</caption>
      <tbody>
        <StepRows steps={steps} />
        {payments.map(({ label, amount }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two payments can read the same, and they never move.
          <MoneyRow key={at} words={`paid: ${label}`}>
            {amount.words}
          </MoneyRow>
        ))}
        {payments.length > 0 && (
          <MoneyRow words={result.label}>
            <strong>{result.words}</strong>
          </MoneyRow>
        )}
      </tbody>
    </table>
  );
}

type Change = Pick<InvoiceCorrection['sums'][number], 'before' | 'after' | 'difference'>;

/** What changed since the older invoice: each amount there, now, and the difference. */
function Correction({ corrects }: { readonly corrects: InvoiceCorrection }) {
  const heads = [`Invoice ${corrects.number}`, 'Now', 'Difference'] as const;
  const cells = ({ before, after, difference }: Change) =>
    [before, after, difference].map(({ words }, at) => [heads[at] ?? '', words] as const);
  return (
    <>
      <p>{corrects.words}</p>
      <ScrollRegion label="What changed">
        <table className="slips summed">
          <ColumnHeads words={['What changed']} money={heads} />
          <tbody>
            {corrects.lots.map((lot) => (
              <tr key={lot.lotNo}>
                <th scope="row" className="slip-name">
                  Lot {lot.lotNo}, {lot.words}
                  {lot.beforeWords !== '' && <div className="small soft">before: {lot.beforeWords}</div>}
                  {lot.afterWords !== '' && <div className="small soft">now: {lot.afterWords}</div>}
                </th>
                <MoneyCells cells={cells(lot)} />
              </tr>
            ))}
            {corrects.sums.map((sum) => (
              <tr key={sum.label}>
                <th scope="row" className="slip-name">
                  {sum.label}
                </th>
                <MoneyCells cells={cells(sum)} />
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollRegion>
      {corrects.remarks.map((remark) => (
        <p key={remark}>{remark}</p>
      ))}
    </>
  );
}

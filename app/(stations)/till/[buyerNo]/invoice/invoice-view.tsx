import { MoneyCells, StepRows } from '#app/(stations)/statement-parts.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { InvoiceCorrection, InvoicePaper } from '#lib/invoice/model.ts';

/** An invoice on the screen: the same finished model as the paper, and no sum of its own. */
export function InvoiceView({ invoice }: { readonly invoice: InvoicePaper | null }) {
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
          <tr key={at}>
            <th scope="row">paid: {label}</th>
            <td className="money">{amount.words}</td>
          </tr>
        ))}
        {payments.length > 0 && (
          <tr>
            <th scope="row">{result.label}</th>
            <td className="money">
              <strong>{result.words}</strong>
            </td>
          </tr>
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

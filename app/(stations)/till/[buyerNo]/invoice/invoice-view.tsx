import { Mark } from '#app/ui/marks.tsx';
import { ColumnHeads } from '#app/ui/text.tsx';
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
      <Reckoning invoice={invoice} />
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
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x slips-room" aria-label="Lots" tabIndex={0}>
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
    </section>
  );
}

const SIGNS = { start: '', less: 'less ', plus: 'plus ', sum: '' } as const;

function Reckoning({ invoice: { steps, payments, result } }: { readonly invoice: InvoicePaper }) {
  return (
    <table className="reckoning at-end">
      <caption className="visually-hidden">Reckoning</caption>
      <tbody>
        {steps.map(({ kind, label, words }) => (
          <tr key={label}>
            <th scope="row">
              {SIGNS[kind]}
              {label}
            </th>
            <td className="money">{kind === 'sum' ? <strong>{words}</strong> : words}</td>
          </tr>
        ))}
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

function Correction({ corrects }: { readonly corrects: InvoiceCorrection }) {
  return (
    <>
      <p>{corrects.words}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too. */}
      <section className="scroll-x slips-room" aria-label="What changed" tabIndex={0}>
        <table className="slips summed">
          <ColumnHeads words={['What changed']} money={[`Invoice ${corrects.number}`, 'Now', 'Difference']} />
          <tbody>
            {corrects.lots.map((lot) => (
              <tr key={lot.lotNo}>
                <th scope="row" className="slip-name">
                  Lot {lot.lotNo}, {lot.words}
                  {lot.beforeWords !== '' && <div className="small soft">before: {lot.beforeWords}</div>}
                  {lot.afterWords !== '' && <div className="small soft">now: {lot.afterWords}</div>}
                </th>
                <Change of={lot} number={corrects.number} />
              </tr>
            ))}
            {corrects.sums.map((sum) => (
              <tr key={sum.label}>
                <th scope="row" className="slip-name">
                  {sum.label}
                </th>
                <Change of={sum} number={corrects.number} />
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {corrects.remarks.map((remark) => (
        <p key={remark}>{remark}</p>
      ))}
    </>
  );
}

interface ChangeProps {
  readonly of: Pick<InvoiceCorrection['sums'][number], 'before' | 'after' | 'difference'>;
  /** The number of the older invoice. */
  readonly number: number;
}

function Change({ of: { before, after, difference }, number }: ChangeProps) {
  return (
    <>
      <td className="money" data-head={`Invoice ${number}`}>
        {before.words}
      </td>
      <td className="money" data-head="Now">
        {after.words}
      </td>
      <td className="money slip-sum" data-head="Difference">
        {difference.words}
      </td>
    </>
  );
}

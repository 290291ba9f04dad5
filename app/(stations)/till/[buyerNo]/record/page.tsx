import type { Metadata } from 'next';
import { BuyerFrame, type BuyerPageProps, buyerContext } from '#app/(stations)/till/till-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { Mark } from '#app/ui/marks.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { ColumnHeads, Phrases, ScrollRegion } from '#app/ui/text.tsx';
import { takenWords } from '#lib/buyer/lists.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import type { PurchaseRecord, PurchaseRow } from '#lib/invoice/model.ts';

export const metadata: Metadata = { title: 'Purchase record' };

export default async function Page(props: BuyerPageProps) {
  const { book, association, sale, buyerNo, file } = await buyerContext(props);
  const record = purchaseRecord(file, today(book));
  const words = `sale=${sale.id}&buyer=${buyerNo}`;
  const name = `purchase-record-${sale.id}-buyer-${buyerNo}`;
  return (
    <BuyerFrame {...{ association, sale, buyerNo }} here="/record" live={false}>
      <RecordView record={record} />
      <div className="acts">
        <PaperLink href={`/api/papers/purchase-record?${words}`} name={`${name}.pdf`}>
          Print the record
        </PaperLink>
        <a className="button" href={`/api/papers/purchase-record/csv?${words}`} download={`${name}.csv`}>
          Save it as CSV
        </a>
      </div>
    </BuyerFrame>
  );
}

/** A buyer's purchase record on the screen: the same finished model as the paper and the CSV. */
function RecordView({ record }: { readonly record: PurchaseRecord }) {
  const { buyer, rows, kinds, total, remarks, sale } = record;
  return (
    <article className="sheet">
      <h1>
        {record.title}, buyer {buyer.buyerNo}, {buyer.name}
      </h1>
      <p>{buyer.licence === '' ? 'No fur buyer’s licence on record' : buyer.licence}</p>
      {remarks.map((remark) => (
        <p key={remark}>
          <Mark tone="stop">{remark}</Mark>
        </p>
      ))}
      {rows.length === 0 ? <p>Nothing bought yet.</p> : <Purchases rows={rows} />}
      {kinds.length > 0 && (
        <table className="reckoning">
          <caption>By kind</caption>
          <tbody>
            {kinds.map(({ goods, words, amount }) => (
              <tr key={goods}>
                <th scope="row">
                  {goods}
                  <div className="small soft">{words}</div>
                </th>
                <td className="money">{amount.words}</td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">Total without premium and tax</th>
              <td className="money">
                {total.words} {sale.currency}
              </td>
            </tr>
          </tfoot>
        </table>
      )}
      <p className="small">{record.caution}</p>
    </article>
  );
}

function Purchases({ rows }: { readonly rows: readonly PurchaseRow[] }) {
  return (
    <ScrollRegion label="Purchases">
      <table className="slips summed purchases">
        <ColumnHeads words={['Lot', 'Date and seller', 'Kind and export tags', 'Price']} money={['Amount']} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.lotNo}>
              <th scope="row">{row.lotNo}</th>
              <td className="slip-name">
                {row.dateWords}
                {row.sellers.map(({ name, address, licence }) => (
                  <div key={name} className="small">
                    <Phrases of={[name, ...address, ...licence.split(', ')].filter(Boolean)} />
                  </div>
                ))}
              </td>
              <td className="slip-wide">
                {row.goods}, <span className="unbroken">{row.quantity.words}</span>
                <div className="small soft">{takenWords(row)}</div>
                {row.tags.map(({ tag, words }) => (
                  <div key={tag} className="small unbroken">
                    {words}
                  </div>
                ))}
              </td>
              <td className="unbroken">
                {row.price.words}
                {row.each.words !== '' && <div className="small soft">{row.each.words} each</div>}
              </td>
              <td className="money slip-end">{row.amount.words}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

import { Fragment } from 'react';
import { MoneyCells, StepRows } from '#app/(stations)/statement-parts.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { LotGroup, SettlementSheet, SheetLot } from '#lib/settlement/model.ts';

/** A settlement sheet on the screen: the same finished model as the paper, and no sum of its own. */
export function SheetView({ sheet }: { readonly sheet: SettlementSheet }) {
  return (
    <article className="sheet">
      <h1>
        {sheet.title}, seller {sheet.sellerNo}
      </h1>
      <p>
        <Mark tone={sheet.preview ? 'open' : 'done'}>{sheet.numberWords}</Mark> {sheet.issuedWords}
      </p>
      <p>
        {sheet.partners.map(({ name }) => name).join(', ')}. {sheet.membershipWords}
      </p>
      <p>{sheet.result.label}</p>
      <p className="figure-large">
        {sheet.result.words} <small>{sheet.sale.currency}</small>
      </p>
      {sheet.result.sentence && <p>{sheet.result.sentence}</p>}
      <LotTable groups={sheet.counted} sum={sheet.countedSum} />
      <table className="reckoning">
        <caption>From gross to net</caption>
        <tbody>
          <StepRows steps={sheet.steps} />
        </tbody>
      </table>
      <table className="reckoning">
        <caption>{sheet.sharesTitle}</caption>
        <tbody>
          {sheet.shares.map(({ personId, name, paidTo, partsWords, share }) => (
            <tr key={personId}>
              <th scope="row">
                {name}
                {paidTo && <div className="small">{paidTo}</div>}
              </th>
              <td>{partsWords}</td>
              <td className="money">{share.words}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {sheet.beside.length > 0 && <LotTable groups={sheet.beside} sum={null} />}
      <Sentences title="Remarks" sentences={[...sheet.remarks, ...sheet.paidInCash]} />
      <Tags sheet={sheet} />
      <Sentences title="Terms of this sale" sentences={sheet.terms} />
      <p className="small">{sheet.caution}</p>
      <p className="small soft">{sheet.head.words}</p>
    </article>
  );
}

function Tags({ sheet }: { readonly sheet: SettlementSheet }) {
  if (sheet.tags.length === 0) return null;
  return (
    <section>
      <h2>Export tags</h2>
      {sheet.tags.map(({ lotNo, goods, tags }) => (
        <p key={lotNo} className="sheet-tags">
          Lot {lotNo}, {goods}:
          {tags.map(({ words }, at) => (
            <Fragment key={words}>
              {' '}
              <span>{at < tags.length - 1 ? `${words},` : words}</span>
            </Fragment>
          ))}
        </p>
      ))}
    </section>
  );
}

function Sentences({ title, sentences }: { readonly title: string; readonly sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}

/** The lots of a sheet in their groups, with the sum under them where they have one. */
function LotTable({ groups, sum }: { groups: readonly LotGroup[]; sum: SettlementSheet['countedSum'] }) {
  if (groups.length === 0) return null;
  return (
    <ScrollRegion label={groups.map(({ title }) => title).join(', ')}>
      <table className="slips summed">
        <ColumnHeads words={['Lot', 'Goods', 'Quantity', 'Price']} money={['Amount', 'Commission', 'Fees', 'Net']} />
        {groups.map((group) => (
          <tbody key={group.kind}>
            <tr>
              <th scope="rowgroup" colSpan={8}>
                {group.title}
              </th>
            </tr>
            {group.lots.map((lot) => (
              <LotRow key={lot.lotNo} lot={lot} />
            ))}
          </tbody>
        ))}
        {sum && (
          <tfoot>
            <tr>
              <th scope="row" colSpan={4} className="slip-name">
                {sum.label}
              </th>
              <Figures of={sum} />
            </tr>
          </tfoot>
        )}
      </table>
    </ScrollRegion>
  );
}

function LotRow({ lot }: { readonly lot: SheetLot }) {
  return (
    <tr>
      <th scope="row">{lot.lotNo}</th>
      <td className="slip-name">
        {lot.goods}
        {lot.detail && <div className="small soft">{lot.detail}</div>}
        {lot.note && <div className="small">{lot.note}</div>}
      </td>
      <td>{lot.quantity.words}</td>
      <td>{lot.price.words}</td>
      <Figures of={lot} how={lot.commissionHow} />
    </tr>
  );
}

interface FiguresProps {
  readonly of: Pick<SheetLot, 'amount' | 'commission' | 'fees' | 'net'>;
  /** How the commission is worked out. */
  readonly how?: string;
}

function Figures({ of: { amount, commission, fees, net }, how = '' }: FiguresProps) {
  const cells = [
    ['Amount', amount.words],
    ['Commission', commission.words, how],
    ['Fees', fees.words],
    ['Net', net.words],
  ] as const;
  return <MoneyCells cells={cells} />;
}

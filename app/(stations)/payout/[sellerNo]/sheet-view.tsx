import { Fragment } from 'react';
import { Mark } from '#app/ui/mark.tsx';
import type { SettlementSheet, SheetStep } from '#lib/sheet/model.ts';
import { LotTable } from './lot-table.tsx';

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
      <Steps steps={sheet.steps} />
      <Shares sheet={sheet} />
      {sheet.beside.length > 0 && <LotTable groups={sheet.beside} sum={null} />}
      <Sentences title="Remarks" sentences={[...sheet.remarks, ...sheet.paidInCash]} />
      <Tags sheet={sheet} />
      <Sentences title="Terms of this sale" sentences={sheet.terms} />
      <p className="small">{sheet.caution}</p>
      <p className="small soft">{sheet.head.words}</p>
    </article>
  );
}

const SIGNS = { start: '', less: 'less ', plus: 'plus ', sum: '' } as const;

function Steps({ steps }: { readonly steps: readonly SheetStep[] }) {
  return (
    <table className="reckoning">
      <caption>From gross to net</caption>
      <tbody>
        {steps.map((step, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two charges can read the same, and the steps never move.
          <tr key={at}>
            <th scope="row">
              {SIGNS[step.kind]}
              {step.label}
            </th>
            <td className="money">{step.kind === 'sum' ? <strong>{step.words}</strong> : step.words}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Shares({ sheet }: { readonly sheet: SettlementSheet }) {
  return (
    <table className="reckoning">
      <caption>{sheet.sharesTitle}</caption>
      <tbody>
        {sheet.shares.map(({ personId, name, partsWords, share }) => (
          <tr key={personId}>
            <th scope="row">{name}</th>
            <td>{partsWords}</td>
            <td className="money">{share.words}</td>
          </tr>
        ))}
      </tbody>
    </table>
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

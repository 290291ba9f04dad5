import type { OwnGoods, OwnLot, OwnNumber } from '#db/queries/own-goods.ts';
import { showMoney } from '#lib/money.ts';
import { dateInWords, priceFor, quantityFor } from '#lib/sheet/spell.ts';
import '../range-table.css';

/** Every seller number of one person, sale by sale, with its lots and its sheet. */
export function OwnNumbers({ own: { name, numbers } }: { readonly own: OwnGoods }) {
  return (
    <>
      <p>
        {name}: {numbers.length === 0 ? 'no goods of yours are in the book yet.' : 'newest sale first.'}
      </p>
      {numbers.map((number) => (
        <OneNumber key={`${number.saleId} ${number.sellerNo}`} number={number} />
      ))}
      <form method="post" action="/prices/own/leave" className="no-print">
        <p className="acts">
          <button type="submit">Close this page on this device</button>
        </p>
      </form>
    </>
  );
}

function OneNumber({ number }: { readonly number: OwnNumber }) {
  const { saleId, sale, heldOn, season, currency, sellerNo, shared, hasSheet, lots, grossCents } = number;
  const title = `${sale}, ${dateInWords(heldOn)}, seller number ${sellerNo}`;
  const sheet = `/prices/own/sheet?sale=${saleId}&seller=${sellerNo}`;
  return (
    <section className="sheet" aria-label={title}>
      <h2>{title}</h2>
      <p>
        Season {season}: {showMoney(grossCents)} {currency} before commission and fees
        {shared && ', together with those who share the number'}.
      </p>
      <p>{hasSheet ? <a href={sheet}>Settlement sheet as a PDF</a> : 'No settlement sheet was issued.'}</p>
      {lots.length > 0 && <Lots title={title} lots={lots} />}
    </section>
  );
}

function Lots({ title, lots }: { readonly title: string; readonly lots: readonly OwnLot[] }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A region that scrolls must be reached by keyboard.
    <section className="range-scroll scroll-x slips-room" tabIndex={0} aria-label={`Lots: ${title}`}>
      <table className="range-table slips">
        <thead>
          <tr>
            <th scope="col">Goods</th>
            {['How many', 'Price', 'Brought'].map((head) => (
              <th key={head} scope="col" className="figure">
                {head}
              </th>
            ))}
            <th scope="col">Lot</th>
            <th scope="col">Size, grade, section</th>
          </tr>
        </thead>
        <tbody>
          {lots.map((lot) => (
            <tr key={lot.lotNo}>
              <th scope="row">{lot.name}</th>
              <td className="figure" data-head="How many">
                {quantityFor(lot).words}
              </td>
              <td className="figure" data-head="Price">
                {lot.priceCents === null ? outcomeOf(lot) : priceFor(lot.priceCents, lot.by).words}
              </td>
              <td className="money" data-head="Brought">
                {lot.priceCents !== null && showMoney(lot.amountCents)}
              </td>
              <td data-head="Lot">{lot.lotNo}</td>
              <td className="slip-wide" data-head="Size, grade, section">
                {lot.words}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function outcomeOf({ outcome }: OwnLot): string {
  if (outcome === null) return 'not called';
  return outcome === 'passed' ? 'no-sale' : outcome;
}

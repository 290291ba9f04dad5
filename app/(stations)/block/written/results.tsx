import type { CalledLot } from '#db/queries/called-lots.ts';
import { compareLotNo } from '#lib/lot-number.ts';
import { showMoney } from '#lib/money.ts';

/** The results, to be printed and pinned on the wall. */
export function Results({ called }: { readonly called: readonly CalledLot[] }) {
  const rows = [...called].sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  return (
    <section className="sheet">
      <table>
        <caption>Results</caption>
        <thead>
          <tr>
            <th scope="col">Lot</th>
            <th scope="col">Goods</th>
            <th scope="col">Seller</th>
            <th scope="col">Buyer</th>
            <th scope="col" className="money">
              Price
            </th>
            <th scope="col" className="money">
              Amount
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ lotNo, goodsName, sellerNo, buyerNo, kind, priceCents, amountCents }) => (
            <tr key={lotNo}>
              <th scope="row">{lotNo}</th>
              <td>{goodsName}</td>
              <td>{sellerNo}</td>
              <td>{buyerNo ?? ''}</td>
              <td className="money">
                {priceCents === null ? (kind === 'passed' ? 'no-sale' : kind) : showMoney(priceCents)}
              </td>
              <td className="money">{priceCents === null ? '' : showMoney(amountCents)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

import { ColumnHeads } from '#app/ui/column-heads.tsx';
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
        <ColumnHeads words={['Lot', 'Goods', 'Seller', 'Buyer']} money={['Price', 'Amount']} />
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

import { ColumnHeads } from '#app/ui/column-heads.tsx';
import type { BuyerView } from '#db/queries/till-view.ts';
import { showMoney } from '#lib/money.ts';

/** The lots of a buyer with premium, tax and total, as the invoice will have them. */
export function BoughtTable({ buyer }: { readonly buyer: BuyerView }) {
  if (buyer.lots === 0) return <p>Nothing bought yet.</p>;
  const sums = [
    ['Lots', buyer.amountCents],
    ['Premium', buyer.premiumCents],
    ['Tax', buyer.taxCents],
    ['Total', buyer.totalCents],
  ] as const;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x" aria-label="Lots bought" tabIndex={0}>
      <table>
        <ColumnHeads words={['Lot', 'Goods', 'Price']} money={['Premium', 'Amount']} />
        <tbody>
          {buyer.bought.map((lot) => (
            <tr key={lot.lotNo}>
              <th scope="row">{lot.lotNo}</th>
              <td>
                {lot.goods}
                <div className="small soft">{lot.quantity}</div>
              </td>
              <td>{lot.price}</td>
              <td className="money">{lot.premium}</td>
              <td className="money">{lot.amount}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          {sums.map(([label, sum]) => (
            <tr key={label}>
              <th scope="row" colSpan={4}>
                {label}
              </th>
              <td className="money">{showMoney(sum)}</td>
            </tr>
          ))}
        </tfoot>
      </table>
    </section>
  );
}

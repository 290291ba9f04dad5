import { ColumnHeads } from '#app/ui/column-heads.tsx';
import type { BuyerView } from '#db/queries/till-view.ts';
import { type Cents, showMoney, ZERO } from '#lib/money.ts';

/** The lots of a buyer with premium, tax and total, as the invoice will have them. */
export function BoughtTable({ buyer }: { readonly buyer: BuyerView }) {
  if (buyer.lots === 0) return <p>Nothing bought yet.</p>;
  const premium = buyer.premiumCents !== ZERO;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x slips-room" aria-label="Lots bought" tabIndex={0}>
      <table className="slips summed">
        <ColumnHeads words={['Lot', 'Goods']} money={premium ? ['Premium', 'Amount'] : ['Amount']} />
        <tbody>
          {buyer.bought.map((lot) => (
            <tr key={lot.lotNo}>
              <th scope="row">{lot.lotNo}</th>
              <td className="slip-name">
                {lot.goods}
                <div className="small soft">
                  {lot.quantity} at {lot.price}
                </div>
              </td>
              {premium && (
                <td className="money" data-head="Premium">
                  {lot.premium}
                </td>
              )}
              <td className="money slip-sum">{lot.amount}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          {sumsOf(buyer).map(([label, sum]) => (
            <tr key={label}>
              <th scope="row" colSpan={premium ? 3 : 2} className="slip-name">
                {label}
              </th>
              <td className="money slip-sum">{showMoney(sum)}</td>
            </tr>
          ))}
        </tfoot>
      </table>
    </section>
  );
}

/** The steps from the lots to the total, as the invoice has them: what plays no part is not said. */
function sumsOf(buyer: BuyerView): readonly (readonly [string, Cents])[] {
  const { amountCents, premiumCents, taxCents, totalCents } = buyer;
  const more = [['Premium', premiumCents] as const, ['Tax', taxCents] as const].filter(([, sum]) => sum !== ZERO);
  return [...(more.length > 0 ? [['Lots', amountCents] as const] : []), ...more, ['Total', totalCents]];
}

import Link from 'next/link';
import { ColumnHeads } from '#app/ui/column-heads.tsx';
import { Mark } from '#app/ui/mark.tsx';
import type { BuyerHead } from '#db/queries/till-view.ts';
import { showMoney } from '#lib/money.ts';
import { InvoiceMark } from './[buyerNo]/invoice-state.tsx';
import { BuyerStanding } from './buyer-standing.tsx';

interface BuyerTableProps {
  readonly rows: readonly BuyerHead[];
  readonly saleId: number;
}

/** Every buyer number with what was bought, paid and is owing. */
export function BuyerTable({ rows, saleId }: BuyerTableProps) {
  if (rows.length === 0) return <p>No buyer has a number yet: register the first one here.</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x" aria-label="Buyers" tabIndex={0}>
      <table className="buyers">
        <caption className="visually-hidden">Buyers with what they owe</caption>
        <ColumnHeads words={['Buyer', 'Who, and how they stand']} money={['Owing']} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.buyerNo}>
              <th scope="row">
                <Link href={`/till/${row.buyerNo}?sale=${saleId}`} prefetch={false}>
                  {row.buyerNo}
                </Link>
              </th>
              <td>
                {row.name}
                <BuyerStanding buyer={row} />
                <div className="small buyer-standing">
                  {row.invoice && <InvoiceMark invoice={row.invoice} />}
                  {row.lotsHere < row.lots && <span>{whereabouts(row)}</span>}
                </div>
              </td>
              <td className="money">
                {showMoney(row.owingCents)}
                <div className="small">
                  {row.lots > 0 && row.owingCents === 0 && <Mark tone="done">paid</Mark>}
                  {row.owingCents < 0 && 'we owe them'}
                </div>
                {row.lots > 0 && (
                  <div className="small soft">
                    {row.lots === 1 ? '1 lot' : `${row.lots} lots`}
                    <br />
                    bought {showMoney(row.totalCents)}
                    <br />
                    paid {showMoney(row.paidCents)}
                  </div>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Said once a lot is gone: until then all lie on the table. */
function whereabouts({ lotsHere }: BuyerHead): string {
  if (lotsHere === 0) return 'all lots taken away';
  return lotsHere === 1 ? '1 lot still here' : `${lotsHere} lots still here`;
}

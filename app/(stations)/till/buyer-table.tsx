import Link from 'next/link';
import { ColumnHeads } from '#app/ui/column-heads.tsx';
import { Mark } from '#app/ui/mark.tsx';
import type { InvoiceState } from '#db/queries/invoices.ts';
import type { BuyerHead } from '#db/queries/till-view.ts';
import { showMoney } from '#lib/money.ts';
import { InvoiceMark } from './[buyerNo]/invoice-state.tsx';
import { BuyerStanding } from './buyer-standing.tsx';

interface BuyerTableProps {
  readonly rows: readonly BuyerHead[];
  /** The newest invoices of those who have one. */
  readonly invoices: ReadonlyMap<number, InvoiceState>;
  /** What was looked for, or empty. */
  readonly find: string;
  readonly saleId: number;
}

/** Buyer numbers with what was bought, paid and is owing. */
export function BuyerTable({ rows, invoices, find, saleId }: BuyerTableProps) {
  if (rows.length === 0 && find !== '') return <p>No buyer number and no name fits “{find}”.</p>;
  if (rows.length === 0) return <p>No buyer has a number yet: register the first one here.</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x slips-room" aria-label="Buyers" tabIndex={0}>
      <table className="slips summed buyers">
        <caption className="visually-hidden">Buyers with what they owe</caption>
        <ColumnHeads words={['Buyer', 'Who', 'How they stand']} money={['Owing']} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.buyerNo}>
              <th scope="row">
                <Link href={`/till/${row.buyerNo}?sale=${saleId}`} prefetch={false}>
                  {row.buyerNo}
                </Link>
              </th>
              <td className="slip-name">{row.name}</td>
              <td className="slip-wide">
                <BuyerStanding buyer={row} />
                {row.lots > 0 && <Bought buyer={row} invoice={invoices.get(row.buyerNo)} />}
              </td>
              <td className="money slip-sum">
                {showMoney(row.owingCents)}
                <div className="small">
                  {row.lots > 0 && row.owingCents === 0 && <Mark tone="done">paid</Mark>}
                  {row.owingCents < 0 && 'we owe them'}
                </div>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** What was bought and paid, whether it is billed, and where it lies. */
function Bought({ buyer, invoice }: { readonly buyer: BuyerHead; readonly invoice: InvoiceState | undefined }) {
  const { lots, lotsHere, totalCents, paidCents } = buyer;
  return (
    <div className="small buyer-standing">
      <span>
        {lots === 1 ? '1 lot' : `${lots} lots`}, bought {showMoney(totalCents)}, paid {showMoney(paidCents)}
      </span>
      {invoice && <InvoiceMark invoice={invoice} />}
      {lotsHere < lots && <span>{whereabouts(buyer)}</span>}
    </div>
  );
}

/** Said once a lot is gone: until then all lie on the table. */
function whereabouts({ lotsHere }: BuyerHead): string {
  if (lotsHere === 0) return 'all lots taken away';
  return lotsHere === 1 ? '1 lot still here' : `${lotsHere} lots still here`;
}

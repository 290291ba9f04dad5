import type { Metadata } from 'next';
import Link from 'next/link';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { type Address, stationGround } from '#app/station.ts';
import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/mark.tsx';
import { PrintLink } from '#app/ui/print-link.tsx';
import { balanceView, closingsOf } from '#db/queries/balance-view.ts';
import { PayoutFrame } from '../payout-frame.tsx';
import { BalanceLine } from './balance-line.tsx';

export const metadata: Metadata = { title: 'Balance' };

const cachedBalance = cachedRead(balanceView, bySale);

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['payout']);
  if (!sale) return <PayoutFrame association={association} sale={sale} here="/payout/balance" />;
  const { lines, open, drawerOpen } = cachedBalance(book, sale);
  const closings = closingsOf(book, sale.id);
  return (
    <PayoutFrame association={association} sale={sale} here="/payout/balance">
      <section className="sheet">
        <h1>Balance</h1>
        <p>
          {open === 0 ? <Mark tone="done">Every line is at zero</Mark> : <Mark tone="open">{open} lines are open</Mark>}
          {drawerOpen && ' The drawer is open: count and close it at the Till.'}
        </p>
        <div className="balance-lines">
          {lines.map((line) => (
            <BalanceLine
              key={line.name}
              line={line}
              saleId={sale.id}
              page={word('why') === line.name ? word('page') : null}
            />
          ))}
        </div>
        <div className="acts">
          {sale.stage !== 'closed' && (
            <Link className="button" href={`/?sale=${sale.id}`}>
              The Sale page closes the sale
            </Link>
          )}
          <PrintLink href={`/api/papers/payout/balance?sale=${sale.id}`}>Print the balance</PrintLink>
          {closings.some(({ report }) => report) && (
            <PrintLink href={`/api/papers/payout/closing-report?sale=${sale.id}`}>Print the closing report</PrintLink>
          )}
        </div>
        {closings.map(({ closingId, kind, worker, at, reason }) => (
          <p key={closingId} className="small">
            {kind === 'closed' ? 'Closed' : 'Opened again'} by {worker}, <LocalTime at={at} />
            {reason && `: ${reason}`}
          </p>
        ))}
      </section>
    </PayoutFrame>
  );
}

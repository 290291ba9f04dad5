import type { Metadata } from 'next';
import Link from 'next/link';
import { type Address, stationGround } from '#app/station.ts';
import { today } from '#app/today.ts';
import { PrintLink } from '#app/ui/print-link.tsx';
import { checksOfSale, likelyCheckNumber } from '#db/queries/checks.ts';
import { paperGround } from '#db/queries/paper-lots.ts';
import { PaperLink } from '../paper-link.tsx';
import { PayoutFrame } from '../payout-frame.tsx';
import { PutCheckRight } from './put-check-right.tsx';
import { checksShown, Register } from './register.tsx';

export const metadata: Metadata = { title: 'Checks' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['payout']);
  if (!sale) return <PayoutFrame association={association} sale={sale} here="/payout/checks" />;
  const checks = checksOfSale(book, sale.id);
  const list = checksShown(checks, word);
  const good = list.shown.rows.filter(({ voidedOn }) => voidedOn === null);
  return (
    <PayoutFrame association={association} sale={sale} here="/payout/checks">
      <div className="table-top">
        <section className="sheet">
          <h1>Check register</h1>
          {checks.length > 0 ? (
            <Register ground={paperGround(book, sale, today(book))} checks={checks} list={list} />
          ) : (
            <p>
              No check has been written yet. Issue the sheets under{' '}
              <Link href={`/payout?sale=${sale.id}`}>Settlements</Link>: the checks are written there.
            </p>
          )}
        </section>
        {checks.length > 0 && (
          <aside className="aside">
            <h2>On paper</h2>
            <div className="acts">
              <PrintLink href={`/api/papers/payout/check-register?sale=${sale.id}`}>Print the register</PrintLink>
              {checks.some(({ voidedOn }) => voidedOn === null) && (
                <PaperLink href={`/api/papers/payout/check-stubs?sale=${sale.id}`} name={`check-stubs-${sale.id}.pdf`}>
                  Print the stubs
                </PaperLink>
              )}
              <a className="button" href={`/api/files/payout/checks.csv?sale=${sale.id}`}>
                Save as CSV
              </a>
            </div>
            {good.length > 0 && (
              <PutCheckRight
                checks={good.map(({ checkId, paymentId, number, name }) => ({ checkId, paymentId, number, name }))}
                likely={likelyCheckNumber(book)}
              />
            )}
          </aside>
        )}
      </div>
    </PayoutFrame>
  );
}

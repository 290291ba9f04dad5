import type { Metadata } from 'next';
import Link from 'next/link';
import { ListView } from '#app/(stations)/payout/list-view.tsx';
import { PaperLink } from '#app/(stations)/payout/paper-link.tsx';
import { PayoutFrame } from '#app/(stations)/payout/payout-frame.tsx';
import { type Address, stationContext, today, type Word } from '#app/request/page-context.ts';
import { PrintLink } from '#app/ui/marks.tsx';
import { type FoundPage, foundPage, InPages } from '#app/ui/pages.tsx';
import { paperGround } from '#db/lot/papers.ts';
import { type CheckRow, checksOfSale, likelyCheckNumber } from '#db/payment/queries.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { registerPage } from '#lib/payment/check-papers.ts';
import { PutCheckRight } from './put-check-right.tsx';

export const metadata: Metadata = { title: 'Checks' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationContext(searchParams, ['payout']);
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

/** The checks that the address asks for: a page of all, or of those that were looked for. */
function checksShown(checks: readonly CheckRow[], word: Word): FoundPage<CheckRow> {
  return foundPage(checks, word, ({ number, name }) => ({ number, names: [name] }));
}

interface RegisterProps {
  readonly ground: PaperContext;
  readonly checks: readonly CheckRow[];
  readonly list: FoundPage<CheckRow>;
}

/** The check register a page at a time, with the sum of all. */
function Register({ ground, checks, list }: RegisterProps) {
  return (
    <InPages list={list} saleId={ground.saleId} path="/payout/checks" label="Check number or name" name="Checks">
      <ListView list={registerPage(ground, checks, list.shown.rows)} />
    </InPages>
  );
}

import type { Metadata } from 'next';
import Link from 'next/link';
import { ListPaperView } from '#app/(stations)/payout/list-paper-view.tsx';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { foundPage, InPages } from '#app/ui/pages.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { paperGround } from '#db/lot/papers.ts';
import { checkNumbers } from '#db/payment/check-numbers.ts';
import { checksOfSale } from '#db/payment/queries.ts';
import { checkRegister } from '#lib/payment/check-papers.ts';
import { ReplaceCheck } from './replace-check.tsx';

export const metadata: Metadata = { title: 'Checks' };

export default payoutPage('/payout/checks', ({ book, sale, word }) => {
  const checks = checksOfSale(book, sale.id);
  const list = foundPage(checks, word, ({ number, name, payee }) => ({ number, names: [name, payee] }));
  const context = paperGround(book, sale, today(book));
  const good = list.shown.rows.filter(({ voidedOn }) => voidedOn === null);
  return (
    <div className="table-top">
      <section className="sheet">
        <h1>Check register</h1>
        {checks.length > 0 ? (
          <InPages list={list} saleId={sale.id} path="/payout/checks" label="Check number or name" name="Checks">
            <ListPaperView list={checkRegister(context, checks, list.shown.rows)} />
          </InPages>
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
            <ReplaceCheck
              checks={good.map(({ checkId, paymentId, number, name }) => ({ checkId, paymentId, number, name }))}
              likely={checkNumbers(book).likely}
              closed={sale.stage === 'closed'}
            />
          )}
        </aside>
      )}
    </div>
  );
});

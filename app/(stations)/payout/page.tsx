import type { Metadata } from 'next';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { checkNumbers } from '#db/payment/check-numbers.ts';
import { payoutView } from '#db/settlement/payout-view.ts';
import { showMoney } from '#lib/money/money.ts';
import { IssueAll } from './issue-all.tsx';
import { payoutPage } from './payout-frame.tsx';
import { SellerList } from './seller-table.tsx';
import { OwedAgain } from './since-closing.tsx';
import { WriteChecks } from './write-checks.tsx';

export const metadata: Metadata = { title: 'Payout' };

const cachedPayout = cachedRead(payoutView, bySale);

export default payoutPage('/payout', ({ book, sale, word }) => {
  const view = cachedPayout(book, sale);
  return (
    <div className="table-top">
      <section className="sheet">
        <h1>Settlements</h1>
        <SellerList rows={view.rows} saleId={sale.id} word={word} />
      </section>
      <aside className="aside">
        <h2>All together</h2>
        <p>To be paid to sellers</p>
        <p className="figure-large">{showMoney(view.toPayCents)}</p>
        {view.owedCents > 0 && <p>Sellers owe the association {showMoney(view.owedCents)}.</p>}
        {view.waiting > 0 && (
          <p>
            Without the seller numbers that have lots still to be called: {view.waiting} of {view.rows.length}.
          </p>
        )}
        {view.changed > 0 && <p>Sheets that are no longer right: {view.changed}. Open each and correct it.</p>}
        <IssueAll
          saleId={sale.id}
          ready={view.ready}
          bills={view.readyBills}
          skipped={view.waiting}
          issued={view.issued}
          of={view.rows.length}
        />
        {sale.stage === 'closed' && <OwedAgain {...{ book, sale }} />}
        {sale.stage !== 'closed' && view.payable > 0 && (
          <WriteChecks
            {...{ saleId: sale.id, sellerNo: null, payable: view.payable, checks: view.checks }}
            {...checkNumbers(book)}
          />
        )}
      </aside>
    </div>
  );
});

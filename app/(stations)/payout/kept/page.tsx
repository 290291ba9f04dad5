import type { Metadata } from 'next';
import { ListPaperView } from '#app/(stations)/payout/list-paper-view.tsx';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { PrintLink } from '#app/ui/text.tsx';
import { revenueOfSale } from '#db/report/closing.ts';

export const metadata: Metadata = { title: 'What we keep' };

export default payoutPage('/payout/kept', ({ book, sale }) => {
  const revenue = revenueOfSale(book, sale, today(book));
  return (
    <section className="sheet">
      <h1>{revenue.title}</h1>
      <ListPaperView list={revenue} />
      <div className="acts">
        <PrintLink href={`/api/papers/payout/kept?sale=${sale.id}`}>Print what we keep</PrintLink>
      </div>
    </section>
  );
});

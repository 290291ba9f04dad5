import { shortDate } from '#lib/date/date.ts';
import '#app/(stations)/sale/sale.css';
import type { Metadata } from 'next';
import { cachedSale, OtherSales, SaleFigures, ToMind, Unfinished } from '#app/(stations)/sale/sale-figures.tsx';
import { SaleFrame } from '#app/(stations)/sale/sale-frame.tsx';
import { SettingUp } from '#app/(stations)/sale/setting-up.tsx';
import { StageActs } from '#app/(stations)/sale/stage-acts.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Unbroken } from '#app/ui/text.tsx';
import { allSales, theAssociation } from '#db/sale/queries.ts';

export const metadata: Metadata = { title: 'Sale' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams);
  if (!sale) {
    return (
      <StationPage association={association} here="/">
        <SettingUp named={theAssociation(book) !== undefined} />
      </StationPage>
    );
  }
  const view = cachedSale(book, sale);
  return (
    <SaleFrame association={association} sale={sale} here="/" live>
      <div className="table-top">
        <section className="sheet">
          <h1>{sale.name}</h1>
          <p>
            {[shortDate(sale.heldOn), sale.venue, `season ${sale.season}`].filter(Boolean).join(', ')}.{' '}
            {sale.bidding === 'sealed' ? 'A written sale.' : 'A called sale.'}
          </p>
          <ToMind book={book} sale={sale} />
          {sale.stage !== 'planned' && <SaleFigures view={view} currency={sale.currency} />}
          <Unfinished book={book} sale={sale} />
          <StageActs saleId={sale.id} stage={sale.stage} left={view.left} moves={view.moves} />
        </section>
        <aside className="aside">
          <h2>Terms</h2>
          <ul className="small">
            {view.terms.map((sentence) => (
              <li key={sentence}>
                <Unbroken>{sentence}</Unbroken>
              </li>
            ))}
          </ul>
        </aside>
        <div className="below">
          <OtherSales sales={allSales(book)} here={sale.id} />
        </div>
      </div>
    </SaleFrame>
  );
}

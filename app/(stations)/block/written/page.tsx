import './written.css';
import type { Metadata } from 'next';
import { BackToBlock, NoneToEnter } from '#app/(stations)/block/links.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { writtenView } from '#db/outcome/written-view.ts';
import { Written } from './written.tsx';

export const metadata: Metadata = { title: 'Written bids' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['block']);
  return (
    <StationPage {...{ association, sale }} here="/block">
      <h1>Written bids</h1>
      {sale?.bidding === 'sealed' ? (
        <Written first={writtenView(book, sale, new Date().toISOString())} />
      ) : (
        <NoneToEnter saleId={sale?.id} />
      )}
      {sale && <BackToBlock saleId={sale.id} />}
    </StationPage>
  );
}

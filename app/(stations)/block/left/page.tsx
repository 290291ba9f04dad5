import type { Metadata } from 'next';
import { BackToBlock } from '#app/(stations)/block/links.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Notice } from '#app/ui/notice.tsx';
import { leftView } from '#db/outcome/bids.ts';
import { Left } from './left-bids.tsx';

export const metadata: Metadata = { title: 'Left bids' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['block']);
  return (
    <StationPage {...{ association, sale }} here="/block">
      <h1>Left bids</h1>
      {sale ? (
        <>
          <p>Of buyers who cannot stay. Their prices show at the Block when the lot is up, and nowhere before.</p>
          <Left first={leftView(book, sale)} />
          <BackToBlock saleId={sale.id} />
        </>
      ) : (
        <Notice kind="plain" title="There is no sale yet. Plan one on the Sale page." />
      )}
    </StationPage>
  );
}

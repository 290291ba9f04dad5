import './block.css';
import type { Metadata } from 'next';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Notice } from '#app/ui/notice.tsx';
import { blockView } from '#db/outcome/block-view.ts';
import { writtenPhase } from '#db/outcome/written-view.ts';
import { Block } from './block.tsx';
import { BlockPapers, WrittenBids } from './links.tsx';

export const metadata: Metadata = { title: 'Block' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['block']);
  return (
    <StationPage {...{ association, sale }} here="/block" className="page block">
      {sale ? (
        <Block
          first={blockView(book, sale)}
          written={
            sale.bidding === 'sealed' && (
              <WrittenBids saleId={sale.id} {...writtenPhase(book, sale, new Date().toISOString())} />
            )
          }
          papers={<BlockPapers saleId={sale.id} />}
          late={
            <p>
              <strong>This part of the page has not come from the server yet.</strong> What you type is kept for it.
            </p>
          }
        />
      ) : (
        <>
          <h1>Block</h1>
          <Notice kind="plain" title="There is no sale yet. Plan one on the Sale page." />
        </>
      )}
    </StationPage>
  );
}

import './block.css';
import type { Metadata } from 'next';
import { type Address, stationGround } from '#app/request/page-context.ts';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { blockView } from '#db/outcome/block-view.ts';
import { Block } from './block.tsx';
import { BlockPapers, WrittenBids } from './links.tsx';

export const metadata: Metadata = { title: 'Block' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['block']);
  return (
    <>
      <Masthead association={association} sale={sale} here="/block" />
      <main id="main" className="page block">
        {sale ? (
          <Block
            first={blockView(book, sale)}
            written={sale.bidding === 'sealed' && <WrittenBids saleId={sale.id} />}
            papers={<BlockPapers saleId={sale.id} />}
          />
        ) : (
          <>
            <h1>Block</h1>
            <Notice kind="plain" title="There is no sale yet. Plan one on the Sale page." />
          </>
        )}
      </main>
    </>
  );
}

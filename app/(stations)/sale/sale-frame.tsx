import './sale.css';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { type SaleContext, StationFrame, type StationFrameProps } from '#app/(stations)/station-frame.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Notice } from '#app/ui/notice.tsx';

const PAGES = [
  { path: '/', name: 'The day' },
  { path: '/sale/terms', name: 'Terms' },
  { path: '/sale/goods', name: 'Goods' },
  { path: '/sale/next', name: 'Next sale' },
  { path: '/sale/association', name: 'Association' },
] as const;

type Here = (typeof PAGES)[number]['path'];

interface SaleFrameProps extends Pick<StationFrameProps, 'association' | 'sale' | 'live' | 'children'> {
  readonly here: Here;
}

/** What every page about the sale itself stands in. */
export function SaleFrame(props: SaleFrameProps) {
  return <StationFrame {...props} station="/" name="Sale" pages={PAGES} ofSale />;
}

/** A page about the sale that its address names, for the office; without a sale it says so. */
export function salePage(here: Here, show: (context: SaleContext) => ReactNode) {
  return async ({ searchParams }: { readonly searchParams: SearchParams }) => {
    const { sale, ...context } = await stationContext(searchParams, ['office']);
    if (!sale) return <NoSale association={context.association} />;
    return (
      <SaleFrame association={context.association} sale={sale} here={here}>
        {show({ ...context, sale })}
      </SaleFrame>
    );
  };
}

/** A page about a sale in a book that has none: where one is planned. */
export function NoSale({ association }: { readonly association: string }) {
  return (
    <StationPage association={association} here="/">
      <h1>No sale yet</h1>
      <Notice kind="plain" title="There is no sale in this book.">
        <p>
          <Link href="/">Plan the first one</Link>.
        </p>
      </Notice>
    </StationPage>
  );
}

import './sale.css';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { StationFrame } from '#app/(stations)/station-frame.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { SaleRow } from '#db/book/find.ts';

const PAGES = [
  { path: '/', name: 'The day' },
  { path: '/sale/terms', name: 'Terms' },
  { path: '/sale/goods', name: 'Goods' },
  { path: '/sale/next', name: 'Next sale' },
  { path: '/sale/association', name: 'Association' },
] as const;

interface SaleFrameProps {
  readonly association: string;
  readonly sale: SaleRow;
  readonly here: (typeof PAGES)[number]['path'];
  readonly live?: boolean;
  readonly children: ReactNode;
}

/** What every page about the sale itself stands in. */
export function SaleFrame({ children, ...rest }: SaleFrameProps) {
  return (
    <StationFrame {...rest} station="/" name="Sale" pages={PAGES} ofSale>
      {children}
    </StationFrame>
  );
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

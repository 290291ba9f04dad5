import Link from 'next/link';
import type { ReactNode } from 'react';
import type { StationContext } from '#app/request/page-context.ts';
import { Live, StillTyped } from '#app/ui/live.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { SaleRow } from '#db/book/find.ts';
import { StationPage } from './station-page.tsx';

export interface StationFrameProps {
  readonly association: string;
  readonly sale: SaleRow | undefined;
  /** The station's own address, as the masthead has it. */
  readonly station: '/' | '/till' | '/payout' | '/office';
  /** What the navigation between its pages is called. */
  readonly name: string;
  /** The pages of the navigation, if any. A page may have a guide of its own; else it has the station's. */
  readonly pages?: readonly { readonly path: string; readonly name: string; readonly guide?: string }[];
  readonly here?: string | undefined;
  /** Whether its pages are about one sale, which their addresses then name. */
  readonly ofSale?: boolean;
  readonly live?: boolean;
  readonly children: ReactNode;
}

/** The frame of a station's pages: the masthead, and the navigation between them. */
export function StationFrame(props: StationFrameProps) {
  const { association, sale, station, name, pages = [], here, ofSale = false, live = false, children } = props;
  const guide = pages.find(({ path }) => path === here)?.guide;
  const suffix = ofSale && sale ? `?sale=${sale.id}` : '';
  return (
    <StationPage {...{ association, sale, guide }} here={station}>
      {live ? <Live /> : <StillTyped />}
      {pages.length > 0 && (
        <nav aria-label={name} className="no-print">
          <ul className="stations">
            {pages.map((page) => (
              <li key={page.path}>
                <Link href={`${page.path}${suffix}`} aria-current={page.path === here ? 'page' : undefined}>
                  {page.name}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {children}
    </StationPage>
  );
}

/** What a page about a sale stands on. */
export interface SaleContext extends StationContext {
  readonly sale: SaleRow;
}

/** What a page about a sale says while there is none. */
export function NoSaleNotice() {
  return <Notice kind="plain" title="There is no sale yet: plan one on the Sale page first." />;
}

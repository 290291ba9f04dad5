import Link from 'next/link';
import type { ReactNode } from 'react';
import { Live } from '#app/ui/live.tsx';
import type { SaleRow } from '#db/book/find.ts';
import { StationPage } from './station-page.tsx';

interface StationFrameProps {
  readonly association: string;
  readonly sale: SaleRow | undefined;
  /** The station's own address, as the masthead has it. */
  readonly station: '/' | '/office';
  /** What the way between its pages is called. */
  readonly name: string;
  /** A page may have a guide of its own; else it has the station's. */
  readonly pages: readonly { readonly path: string; readonly name: string; readonly guide?: string }[];
  readonly here: string | undefined;
  /** Whether its pages are about one sale, which their addresses then name. */
  readonly ofSale?: boolean;
  readonly live?: boolean;
  readonly children: ReactNode;
}

/** What every page of a station of several pages stands in: the masthead, and the way to the others. */
export function StationFrame(props: StationFrameProps) {
  const { association, sale, station, name, pages, here, ofSale = false, live = false, children } = props;
  const guide = pages.find(({ path }) => path === here)?.guide;
  const suffix = ofSale && sale ? `?sale=${sale.id}` : '';
  return (
    <StationPage {...{ association, sale, guide }} here={station}>
      {live && <Live />}
      <nav aria-label={name}>
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
      {children}
    </StationPage>
  );
}

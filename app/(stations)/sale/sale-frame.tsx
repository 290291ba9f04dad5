import Link from 'next/link';
import type { ReactNode } from 'react';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import type { SaleRow } from '#db/queries/find.ts';
import './sale.css';

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

/** What every page about the sale itself stands in: the masthead, and the way to the others. */
export function SaleFrame({ association, sale, here, live = false, children }: SaleFrameProps) {
  return (
    <>
      <Masthead association={association} sale={sale} here="/" />
      {live && <Live />}
      <main id="main" className="page">
        <nav aria-label="Sale">
          <ul className="stations">
            {PAGES.map(({ path, name }) => (
              <li key={path}>
                <Link href={`${path}?sale=${sale.id}`} aria-current={path === here ? 'page' : undefined}>
                  {name}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
        {children}
      </main>
    </>
  );
}

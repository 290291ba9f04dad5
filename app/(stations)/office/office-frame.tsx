import Link from 'next/link';
import type { ReactNode } from 'react';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import type { SaleRow } from '#db/queries/find.ts';
import './office.css';

/** The office's pages, each a thing to look after. */
export const OFFICE_PAGES = [
  { path: '/office/workers', name: 'Workers', says: 'who works where, codes for phones, signing out' },
  { path: '/office/log', name: 'Log', says: 'who did what, and whether it is as it was written' },
  { path: '/office/backups', name: 'Backups', says: 'when the book was last copied, and where to' },
  { path: '/office/people', name: 'People', says: 'what is kept about somebody, given out or removed' },
] as const;

interface OfficeFrameProps {
  readonly association: string;
  readonly sale: SaleRow | undefined;
  readonly here?: (typeof OFFICE_PAGES)[number]['path'];
  readonly live?: boolean;
  readonly children: ReactNode;
}

/** What every page of the office stands in: the masthead, and the way to the others. */
export function OfficeFrame({ association, sale, here, live = false, children }: OfficeFrameProps) {
  return (
    <>
      <Masthead association={association} sale={sale} here="/office" />
      {live && <Live />}
      <main id="main" className="page">
        <nav aria-label="Office">
          <ul className="stations">
            {OFFICE_PAGES.map(({ path, name }) => (
              <li key={path}>
                <Link href={path} aria-current={path === here ? 'page' : undefined}>
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

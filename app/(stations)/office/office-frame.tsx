import type { ReactNode } from 'react';
import type { SaleRow } from '#db/queries/find.ts';
import { StationFrame } from '../station-frame.tsx';
import './office.css';

/** The office's pages, each a thing to look after. */
export const OFFICE_PAGES = [
  {
    path: '/office/workers',
    name: 'Workers',
    says: 'who works where, codes for phones, signing out',
    guide: 'workers',
  },
  {
    path: '/office/network',
    name: 'Network',
    says: 'where this machine is reached, the encrypted line',
    guide: 'network',
  },
  { path: '/office/log', name: 'Log', says: 'who did what, and whether it is as it was written' },
  { path: '/office/backups', name: 'Backups', says: 'when the book was last copied, and where to', guide: 'backups' },
  {
    path: '/office/prices',
    name: 'Prices',
    says: 'how many people stand behind a price that the public sees',
    guide: 'prices',
  },
  {
    path: '/office/people',
    name: 'People',
    says: 'what is kept about somebody, given out or removed',
    guide: 'privacy',
  },
] as const;

interface OfficeFrameProps {
  readonly association: string;
  readonly sale: SaleRow | undefined;
  readonly here?: (typeof OFFICE_PAGES)[number]['path'];
  readonly live?: boolean;
  readonly children: ReactNode;
}

/** What every page of the office stands in. */
export function OfficeFrame({ children, here, ...rest }: OfficeFrameProps) {
  return (
    <StationFrame {...rest} station="/office" name="Office" pages={OFFICE_PAGES} here={here}>
      {children}
    </StationFrame>
  );
}

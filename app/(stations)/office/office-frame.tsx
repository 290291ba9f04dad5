import './office.css';
import type { ReactNode } from 'react';
import { StationFrame } from '#app/(stations)/station-frame.tsx';
import type { SaleRow } from '#db/book/find.ts';

/** The office's pages, each a thing to look after. */
export const OFFICE_PAGES = [
  {
    path: '/office/workers',
    name: 'Workers',
    says: 'Who works where, codes for phones, signing out.',
    guide: 'workers',
  },
  {
    path: '/office/network',
    name: 'Network',
    says: 'Where this machine is reached, and the encrypted line.',
    guide: 'network',
  },
  { path: '/office/log', name: 'Log', says: 'Who did what, and whether it still stands as it was written.' },
  { path: '/office/backups', name: 'Backups', says: 'When the book was last copied, and where to.', guide: 'backups' },
  {
    path: '/office/prices',
    name: 'Prices',
    says: 'How many people stand behind a price that the public sees.',
    guide: 'prices',
  },
  {
    path: '/office/people',
    name: 'People',
    says: 'What is kept about somebody, to be given out or removed.',
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

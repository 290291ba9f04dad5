import './office.css';
import type { ReactNode } from 'react';
import { StationFrame, type StationFrameProps } from '#app/(stations)/station-frame.tsx';
import { type SearchParams, type StationContext, stationContext } from '#app/request/page-context.ts';

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
  {
    path: '/office/doors',
    name: 'Doors',
    says: 'Which devices are signed in, which laptops follow, and who came in.',
    guide: 'stolen',
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
  {
    path: '/payout/year',
    name: 'Year',
    says: 'What a calendar year came to: sellers by person, sales tax, large cash payments.',
    guide: 'year',
  },
] as const;

type OfficeFrameProps = Omit<StationFrameProps, 'station' | 'name' | 'pages' | 'ofSale'>;

/** The frame of every page of the office. */
export function OfficeFrame(props: OfficeFrameProps) {
  return <StationFrame {...props} station="/office" name="Office" pages={OFFICE_PAGES} />;
}

/** A page of the office, for those who work there. */
export function officePage(
  frame: Pick<OfficeFrameProps, 'here' | 'live'>,
  show: (context: StationContext) => ReactNode,
) {
  return async ({ searchParams }: { readonly searchParams: SearchParams }) => {
    const context = await stationContext(searchParams, ['office']);
    return (
      <OfficeFrame {...frame} association={context.association} sale={context.sale}>
        {show(context)}
      </OfficeFrame>
    );
  };
}

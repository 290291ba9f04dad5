import type { ReactNode } from 'react';
import { PlainMasthead } from '#app/ui/plain-masthead.tsx';

const PAGES = [
  { path: '/prices', name: 'Prices' },
  { path: '/prices/mine', name: 'What would mine bring' },
  { path: '/prices/own', name: 'Your own goods' },
  { path: '/board', name: 'Board' },
] as const;

interface HallFrameProps {
  readonly association: string;
  readonly guide?: 'prices' | 'board';
  readonly here?: (typeof PAGES)[number]['path'];
  /** What kind of page it is, for its styles. */
  readonly kind?: string;
  readonly children: ReactNode;
}

/** The frame of the public pages. Nothing of the stations: members and strangers read them all year. */
export function HallFrame({ association, here, guide = 'prices', kind = 'prices', children }: HallFrameProps) {
  return (
    <>
      <PlainMasthead
        name={association}
        words="What goods brought at our sales"
        skip="Go to the page"
        label="Public pages"
        ways={[...PAGES, { path: `/help/${guide}`, name: 'Help' }]}
        here={here}
      />
      <main id="main" className={`page ${kind}`}>
        {children}
      </main>
    </>
  );
}

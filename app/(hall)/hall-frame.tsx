import type { ReactNode } from 'react';

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
      <header className="masthead">
        <a className="skip" href="#main">
          Go to the page
        </a>
        <p className="masthead-name">
          <strong>{association}</strong>
          <span>What goods brought at our sales</span>
        </p>
        <nav className="masthead-ways" aria-label="Public pages">
          <ul className="stations">
            {PAGES.map(({ path, name }) => (
              <li key={path}>
                <a href={path} aria-current={path === here ? 'page' : undefined}>
                  {name}
                </a>
              </li>
            ))}
            <li>
              <a href={`/help/${guide}`}>Help</a>
            </li>
          </ul>
        </nav>
      </header>
      <main id="main" className={`page ${kind}`}>
        {children}
      </main>
    </>
  );
}

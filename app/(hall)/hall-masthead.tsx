const PAGES = [
  { path: '/prices', name: 'Prices' },
  { path: '/prices/mine', name: 'What would mine bring' },
  { path: '/prices/own', name: 'Your own goods' },
  { path: '/board', name: 'Board' },
] as const;

interface MastheadProps {
  readonly association: string;
  readonly guide?: 'prices' | 'board';
  readonly here?: (typeof PAGES)[number]['path'];
}

/** Whose pages these are. Nothing of the stations: members and strangers read them all year. */
export function HallMasthead({ association, here, guide = 'prices' }: MastheadProps) {
  return (
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
  );
}

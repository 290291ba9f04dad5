import type { ReactNode } from 'react';

interface Way {
  readonly path: string;
  readonly name: string;
}

interface PublicFrameProps {
  /** Whose or what the pages are, and what they show. */
  readonly name: string;
  readonly words: string;
  /** What the skip link says. */
  readonly skip: string;
  /** What the ways lead to, all of them together. */
  readonly label: string;
  readonly ways: readonly Way[];
  /** The path of the page itself. */
  readonly here?: string | undefined;
  /** What kind of page it is, for its styles. */
  readonly kind?: string;
  readonly children: ReactNode;
}

/** The frame of pages that everybody may read, with nothing of the stations. */
export function PublicFrame({ name, words, skip, label, ways, here, kind = '', children }: PublicFrameProps) {
  return (
    <>
      <header className="masthead">
        <SkipLink>{skip}</SkipLink>
        <p className="masthead-name">
          <strong>{name}</strong>
          <span>{words}</span>
        </p>
        <nav className="masthead-ways" aria-label={label}>
          <Ways of={ways} here={here} />
        </nav>
      </header>
      <main id="main" className={`page ${kind}`.trim()}>
        {children}
      </main>
    </>
  );
}

/** Past the masthead by keyboard. */
export function SkipLink({ children }: { readonly children: string }) {
  return (
    <a className="skip" href="#main">
      {children}
    </a>
  );
}

/** The ways of a masthead. `here` is the path of the page itself. */
export function Ways({ of, here }: { readonly of: readonly Way[]; readonly here: string | undefined }) {
  return (
    <ul className="stations">
      {of.map(({ path, name }) => (
        <li key={path}>
          <a href={path} aria-current={path === here ? 'page' : undefined}>
            {name}
          </a>
        </li>
      ))}
    </ul>
  );
}

const PAGES = [
  { path: '/prices', name: 'Prices' },
  { path: '/prices/mine', name: 'What would mine bring' },
  { path: '/prices/own', name: 'Your own goods' },
  { path: '/board', name: 'Board' },
] as const;

interface HallFrameProps extends Pick<PublicFrameProps, 'kind' | 'children'> {
  readonly association: string;
  readonly guide?: 'prices' | 'board';
  readonly here?: (typeof PAGES)[number]['path'];
}

/** The frame of the pages for members and strangers, who read them all year. */
export function HallFrame({ association, guide = 'prices', kind = 'prices', here, children }: HallFrameProps) {
  return (
    <PublicFrame
      name={association}
      words="What goods brought at our sales"
      skip="Go to the page"
      label="Public pages"
      ways={[...PAGES, { path: `/help/${guide}`, name: 'Help' }]}
      here={here}
      kind={kind}
    >
      {children}
    </PublicFrame>
  );
}

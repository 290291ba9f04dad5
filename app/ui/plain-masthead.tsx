interface Way {
  readonly path: string;
  readonly name: string;
}

interface PlainMastheadProps {
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
}

/** The masthead of pages that everybody may read, with nothing of the stations. */
export function PlainMasthead({ name, words, skip, label, ways, here }: PlainMastheadProps) {
  return (
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

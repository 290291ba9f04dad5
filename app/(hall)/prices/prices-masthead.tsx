/** Whose prices these are. Nothing of the stations: members and strangers read this page all year. */
export function PricesMasthead({ association, home }: { readonly association: string; readonly home?: boolean }) {
  return (
    <header className="masthead">
      <a className="skip" href="#main">
        Go to the prices
      </a>
      <p className="masthead-name">
        <strong>{association}</strong>
        <span>What goods brought at our sales</span>
      </p>
      <nav aria-label="Public pages">
        <ul className="stations">
          <li>
            <a href="/prices" aria-current={home ? 'page' : undefined}>
              Prices
            </a>
          </li>
          <li>
            <a href="/board">Board</a>
          </li>
        </ul>
      </nav>
    </header>
  );
}

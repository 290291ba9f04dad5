/** Nothing of a sale stands on a guide: whoever is in the hall may read it. */
export function HelpMasthead() {
  return (
    <header className="masthead">
      <a className="skip" href="#main">
        Go to the guide
      </a>
      <p className="masthead-name">
        <strong>Help</strong>
        <span>Read here without internet</span>
      </p>
      <nav className="masthead-ways" aria-label="Guides">
        <ul className="stations">
          <li>
            <a href="/help">All guides</a>
          </li>
          <li>
            <a href="/">The stations</a>
          </li>
        </ul>
      </nav>
    </header>
  );
}

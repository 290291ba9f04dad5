import Link from 'next/link';

/** Drawn for each request like every page: a page from the build carries none of the words that let its scripts run. */
export default function NotFound() {
  return (
    <main id="main" className="page">
      <section className="sheet">
        <h1>There is no such page.</h1>
        <p>The address may be mistyped, or what stood here belongs to another sale.</p>
        <p className="acts">
          <Link className="button" href="/">
            Back to the sale
          </Link>
          <a href="/help">Guides</a>
        </p>
      </section>
    </main>
  );
}

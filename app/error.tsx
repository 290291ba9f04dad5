'use client';

/**
 * A page that could not be drawn; what is the matter with the book is on a page of its own. The link there is a plain
 * one: every page carries this code, and whoever follows it wants all loaded anew.
 */
export default function ErrorPage({ reset }: { readonly error: Error; readonly reset: () => void }) {
  return (
    <main id="main" className="page">
      <section className="sheet" role="alert">
        <h1>This page could not be shown.</h1>
        <p>
          Nothing that was saved is lost, and what is not saved yet waits in this browser. Try once more; if it stays
          like this, look at <a href="/trouble">what is the matter</a>.
        </p>
        <p className="acts">
          <button type="button" className="act" onClick={reset}>
            Try once more
          </button>
        </p>
      </section>
    </main>
  );
}

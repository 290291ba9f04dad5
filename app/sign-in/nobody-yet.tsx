/** What a phone is told before the first worker is entered: a stranger in the hall must not be the first. */
export function NobodyYet() {
  return (
    <main id="main" className="page">
      <section className="sheet">
        <h1>Nobody is entered yet</h1>
        <p>The first worker is entered on the machine itself. After that, sign in here.</p>
        <p className="acts">
          <a href="/help/workers">How workers are entered</a>
        </p>
      </section>
    </main>
  );
}

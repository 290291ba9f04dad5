/** For whoever stands before the door: guides and prices are open to everybody. */
export function SignInGuides() {
  return (
    <nav className="acts" aria-label="Open to everybody">
      <a href="/help/workers">How to sign in</a>
      <a href="/help">All guides</a>
      <a href="/prices">Prices</a>
      <a href="/board">Board</a>
    </nav>
  );
}

/** Before and after the selling: what a seller's lots brought is for that seller. */
export function NotNow() {
  return (
    <>
      <p>Bidding is not open now. You can follow a seller number here while it is.</p>
      <p>
        A seller's results are on their settlement sheet. With a code from the office a seller also finds them at{' '}
        <a href="/prices/own">Your own goods</a>.
      </p>
    </>
  );
}

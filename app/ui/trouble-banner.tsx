import 'server-only';
import { bookNow, troubleNow } from '#app/house.ts';
import { clockView } from '#db/queries/clock-view.ts';
import { Notice } from './notice.tsx';

/** What every station must know: nothing is written, or the clock is wrong. Nothing where all is well. */
export function TroubleBanner() {
  const trouble = troubleNow();
  const book = bookNow();
  const clock = book ? clockView(book, new Date().toISOString()) : null;
  return (
    <>
      {trouble && (
        <Notice kind="stop" title={trouble.title}>
          <p>
            {trouble.safe} <a href="/trouble">What to do</a>
          </p>
        </Notice>
      )}
      {clock && <Notice kind="wait" title={clock} />}
    </>
  );
}

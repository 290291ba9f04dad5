'use client';

import { useState } from 'react';
import { LocalTime } from '#app/ui/local-time.tsx';
import type { Glance } from '#db/queries/called-lots.ts';
import type { Pace } from '#lib/pace.ts';

/** The afternoon at a glance. The total can be hidden, because the hall may look over the clerk's shoulder. */
export function Afternoon({ glance }: { readonly glance: Glance }) {
  const [hidden, setHidden] = useState(true);
  const { sold, passed, withdrawn, left, pace, total } = glance;
  return (
    <section aria-labelledby="afternoon">
      <h2 id="afternoon">The afternoon</h2>
      <dl className="lot-up-facts">
        <Figure name="Sold">{sold}</Figure>
        <Figure name="No-sale">{passed}</Figure>
        {withdrawn > 0 && <Figure name="Withdrawn">{withdrawn}</Figure>}
        <Figure name="Left">{left}</Figure>
        {pace && <Figure name="Lots an hour">{pace.lotsAnHour}</Figure>}
        {pace && left > 0 && <Figure name="Done at about">{endWords(pace)}</Figure>}
        <Figure name="Total">
          {hidden ? 'hidden' : total}{' '}
          <button type="button" className="small" aria-pressed={!hidden} onClick={() => setHidden(!hidden)}>
            {hidden ? 'Show' : 'Hide'} the total
          </button>
        </Figure>
      </dl>
    </section>
  );
}

/** The time of day by the reader's clock, with how long that is. */
function endWords({ doneAtMs, minutesLeft }: Pace) {
  return (
    <>
      <LocalTime at={new Date(doneAtMs).toISOString()} />, in {minutesWords(minutesLeft)}
    </>
  );
}

function minutesWords(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  return hours > 0 ? `${hours} h ${minutes % 60} min` : `${minutes} min`;
}

function Figure({ name, children }: { readonly name: string; readonly children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

'use client';

import { useState } from 'react';
import type { WrittenView } from '#db/queries/written-view.ts';

interface CloseBidsProps {
  readonly view: WrittenView;
  readonly busy: boolean;
  readonly close: () => void;
}

/** Closing cannot be taken back, so it is asked once. */
export function CloseBids({ view, busy, close }: CloseBidsProps) {
  const [asked, setAsked] = useState(false);
  const act = () => {
    setAsked(false);
    close();
  };
  return (
    <section className="sheet" aria-label="Closing the bids">
      <p>
        {view.bids} bids on {view.lots.length} open lots. The highest bid at or above the minimum takes a lot, a tie
        goes to the earlier one.
      </p>
      {asked ? (
        <div className="acts" role="alert">
          <p>
            <strong>Close the bids and award the lots now?</strong>
          </p>
          <button type="button" className="act" disabled={busy} onClick={act}>
            Yes, award them
          </button>
          <button type="button" onClick={() => setAsked(false)}>
            No, go back
          </button>
        </div>
      ) : (
        <button type="button" disabled={busy || view.stage !== 'selling'} onClick={() => setAsked(true)}>
          Close the bids and award
        </button>
      )}
      {view.stage !== 'selling' && <p>The sale is in the stage “{view.stage}”: bids are closed while it is selling.</p>}
    </section>
  );
}

'use client';

import { useState } from 'react';
import { LocalMoment } from '#app/ui/local-moment.tsx';
import type { WrittenView } from '#db/queries/written-view.ts';

interface CloseBidsProps {
  readonly view: WrittenView;
  /** True once the closing time that was set is past. */
  readonly over: boolean;
  readonly busy: boolean;
  readonly close: () => void;
}

/** Closing cannot be taken back, so it is asked once. */
export function CloseBids({ view, over, busy, close }: CloseBidsProps) {
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
      {view.closesAt && !over ? (
        <p>
          <strong>
            Bids close at <LocalMoment at={view.closesAt} />. Close them after that, or move the closing time.
          </strong>
        </p>
      ) : asked ? (
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

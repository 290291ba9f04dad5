'use client';

import { useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useIsPast } from '#app/ui/use-is-past.ts';
import { useView } from '#app/ui/use-view.ts';
import type { ValueOf } from '#db/commands/index.ts';
import type { WrittenView } from '#db/queries/written-view.ts';
import { BidGrid } from './bid-grid.tsx';
import { CloseBids } from './close-bids.tsx';
import { ClosingTime } from './closing-time.tsx';
import { type Decision, LateAnswer } from './late-answer.tsx';
import { Results } from './results.tsx';
import { WaitingLots } from './waiting-lots.tsx';
import { WrittenPapers } from './written-papers.tsx';

/** The grid of bids by buyer, closing them in one act, and the lots that wait for their sellers. */
export function Written({ first }: { readonly first: WrittenView }) {
  const { view } = useView(first, `/api/views/written?sale=${first.saleId}`);
  const { give, busy, refusal, clear } = useGive('block');
  const [said, setSaid] = useState('');
  const [late, setLate] = useState<Decision>();
  const isPast = useIsPast(view.closesAt);
  const over = view.closedAt !== null || isPast;
  const close = async () => {
    const reply = await give('bids.award', { saleId: view.saleId }, 'Closing the bids');
    setSaid(reply.ok ? awardedWords(reply.value) : '');
  };
  const decide = async ({ lotNo, ...outcome }: Decision) => {
    const input = { saleId: view.saleId, lotNo, ...outcome };
    const reply = await give('outcome.record', input, `Lot ${lotNo}`);
    setLate(!reply.ok && reply.field === 'answer_late' ? { lotNo, ...outcome } : undefined);
  };
  return (
    <>
      {refusal && late && (
        <LateAnswer
          message={refusal.message}
          late={late}
          busy={busy}
          decide={(decision) => void decide(decision)}
          leave={clear}
        />
      )}
      {refusal && !late && (
        <Notice kind="stop" title={refusal.message}>
          <button type="button" onClick={clear}>
            I have read it
          </button>
        </Notice>
      )}
      {said && <Notice kind="done" title={said} />}
      <ClosingTime view={view} />
      {view.lots.length > 0 && !view.closedAt && <BidGrid view={view} />}
      {view.lots.length > 0 && !view.closedAt && <CloseBids {...{ view, over, busy, close }} />}
      {view.awarded && over && <WaitingLots view={view} busy={busy} decide={(decision) => void decide(decision)} />}
      {view.awarded && <Results called={view.called} />}
      <WrittenPapers view={view} />
    </>
  );
}

function awardedWords({ awarded, belowMinimum, noBid }: ValueOf<'bids.award'>): string {
  return `Awarded: ${awarded}. Below the minimum: ${belowMinimum}. Without a bid: ${noBid}.`;
}

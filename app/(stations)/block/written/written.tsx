'use client';

import { useState } from 'react';
import { WrittenPapers } from '#app/(stations)/block/links.tsx';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useView } from '#app/ui/use-view.ts';
import type { ValueOf } from '#db/commands.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { PHASE_WORDS, PHASES, type Phase } from '#lib/outcome/written.ts';
import { Awarding, type BidAnswers } from './awarding.tsx';
import { BidGrid } from './bid-grid.tsx';
import { CloseBids, ClosingTime, useIsPast } from './closing-time.tsx';
import { EndedBids, Results } from './results.tsx';
import { WaitingLots } from './waiting-lots.tsx';

/** A written sale in its phase: the sheets, the closing, the awarding, the sellers' answers and the results. */
export function Written({ first }: { readonly first: WrittenView }) {
  const { view } = useView(first, `/api/views/written?sale=${first.saleId}`);
  const { give, busy, refusal, clear } = useGive('block');
  const [said, setSaid] = useState('');
  const isPast = useIsPast(view.closesAt);
  const { phase, saleId, lots } = view;
  const close = async () => {
    const reply = await give('bids.close', { saleId }, 'Closing the bids');
    if (reply.ok) setSaid('The bids are closed.');
  };
  const award = async (answered: BidAnswers) => {
    const reply = await give('bids.award', { saleId, answered }, 'Awarding the lots');
    setSaid(reply.ok ? awardedWords(reply.value) : '');
  };
  const takesSheets = phase === 'taking' || phase === 'closed';
  return (
    <>
      <PhaseList phase={phase} />
      {refusal && (
        <Notice kind="stop" title={[refusal, ...(refusal.also ?? [])].map(({ message }) => message).join(' ')}>
          <Act words="I have read it" act={clear} />
        </Notice>
      )}
      {said && <Notice kind="done" title={said} />}
      {phase === 'taking' && isPast && (
        <Notice kind="wait" title={`The bids closed at ${view.words.closesAt}.`}>
          <p>
            <a href={`/block/written?sale=${saleId}`}>Go to the awarding</a>
          </p>
        </Notice>
      )}
      <ClosingTime view={view} />
      {lots.length > 0 && takesSheets && <BidGrid view={view} />}
      {lots.length > 0 && phase === 'taking' && !isPast && <CloseBids {...{ view, busy, close }} />}
      {(phase === 'closed' || view.toAward > 0) && <Awarding {...{ view, busy, award }} />}
      {!takesSheets && lots.length > 0 && <WaitingLots view={view} />}
      {!takesSheets && <Results called={view.called} />}
      {!takesSheets && <EndedBids ended={view.ended} />}
      <WrittenPapers view={view} />
    </>
  );
}

/** Where the sale is: said in words, and marked for those who do not see it. */
function PhaseList({ phase }: { readonly phase: Phase }) {
  return (
    <ol className="phases" aria-label="Phases of this written sale">
      {PHASES.map((one) => (
        <li key={one} aria-current={one === phase ? 'step' : undefined}>
          {one === phase ? <strong>{`Now: ${PHASE_WORDS[one]}`}</strong> : PHASE_WORDS[one]}
        </li>
      ))}
    </ol>
  );
}

function awardedWords({ awarded, belowMinimum, noBid }: ValueOf<'bids.award'>): string {
  return `Awarded: ${awarded}. Below the minimum: ${belowMinimum}. Without a bid: ${noBid}.`;
}

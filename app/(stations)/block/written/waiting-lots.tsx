'use client';

import { useState } from 'react';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { InputOf } from '#db/commands.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { useIsPast } from './closing-time.tsx';

/** What is said of a lot that waits for its seller. */
type Decision = Omit<InputOf<'outcome.record'>, 'saleId'>;

const MEANS = { kept: 'A lot without an answer by then is kept.', accepted: 'No answer by then means: accepted.' };

/** The reminder list: lots whose best bid is below the minimum, whose sellers accept it or keep the lot. */
export function WaitingLots({ view }: { readonly view: WrittenView }) {
  const { saleId, answerBy, noAnswer } = view;
  const { give, busy, refusal, clear } = useGive('block');
  const [asked, setAsked] = useState<Decision>();
  const timeOver = useIsPast(answerBy);
  const decide = async (decision: Decision) => {
    const reply = await give('outcome.record', { saleId, ...decision }, `Lot ${decision.lotNo}`);
    setAsked(!reply.ok && reply.code === 'needs_answer' ? decision : undefined);
  };
  const keep = (lotNo: string) => decide({ lotNo, kind: 'passed' });
  const yes = () => {
    const question = QUESTIONS.find((one) => one === refusal?.field);
    if (asked && question) void decide({ ...asked, answered: [...(asked.answered ?? []), question] });
  };
  return (
    <section className="sheet" aria-labelledby="waiting-lots">
      <h2 id="waiting-lots">Waiting for their sellers</h2>
      {refusal && (
        <Notice
          kind={asked ? 'wait' : 'stop'}
          title={asked ? `Lot ${asked.lotNo}: ${refusal.message}` : refusal.message}
        >
          <div className="acts">
            {asked && (
              <>
                <Act words={refusal.field === 'answer_late' ? 'The answer counts' : 'Yes'} act={yes} disabled={busy} />
                <Act words={`The seller keeps lot ${asked.lotNo}`} act={() => keep(asked.lotNo)} disabled={busy} />
              </>
            )}
            <Act words={asked ? 'Cancel' : 'I have read it'} act={clear} />
          </div>
        </Notice>
      )}
      {answerBy && view.waiting.length > 0 && (
        <p>
          Each seller accepts or keeps until <strong>{view.words.answerBy}</strong>. {MEANS[noAnswer]}
        </p>
      )}
      {view.waiting.map(({ lotNo, sellerNo, goodsName, minimum, price, unit, buyerNo }) => (
        <div key={lotNo} className="acts">
          <p>
            <strong>Lot {lotNo}</strong> {goodsName}, seller {sellerNo}: best bid {price} {unit} of buyer {buyerNo},
            minimum {minimum}.
          </p>
          <Act
            words="Seller accepts"
            about={`the bid on lot ${lotNo}`}
            act={() =>
              decide({
                ...({ lotNo, kind: 'sold', price: price.replaceAll(',', ''), buyerNo } as const),
                answered: ['below_minimum', 'off_step'],
              })
            }
            disabled={busy}
          />
          <Act words="Seller keeps" about={`lot ${lotNo}`} act={() => keep(lotNo)} disabled={busy} />
        </div>
      ))}
      {timeOver && view.waiting.length > 0 && (
        <Act
          words={`No answer: ${view.waiting.length} ${noAnswer === 'kept' ? 'kept by their sellers' : 'accepted'}`}
          act={() => give('bids.unanswered', { saleId }, 'Sellers without an answer')}
          disabled={busy}
        />
      )}
      {view.noBid.map((lotNo) => (
        <div key={lotNo} className="acts">
          <p>
            <strong>Lot {lotNo}</strong> has no bid.
          </p>
          <Act words="No-sale" about={`of lot ${lotNo}`} act={() => keep(lotNo)} disabled={busy} />
        </div>
      ))}
      {view.onHold.length > 0 && <p>On hold until their tags are right: lot {view.onHold.join(', ')}.</p>}
    </section>
  );
}

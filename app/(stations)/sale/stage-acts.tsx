'use client';

import { useState } from 'react';
import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { CLOSE_QUESTIONS, type CloseQuestion } from '#lib/sale/stage.ts';

interface Step {
  readonly to: Stage;
  readonly act: string;
  readonly says: string;
}

const FORWARD: Readonly<Record<Stage, Step | null>> = {
  planned: { to: 'intake', act: 'Open the intake', says: 'Goods can be checked in from then on.' },
  intake: { to: 'selling', act: 'Start the sale', says: 'Lots can be called from then on; late ones still come in.' },
  selling: { to: 'settling', act: 'End bidding', says: 'No more lots come in; every sheet can be issued.' },
  settling: { to: 'closed', act: 'Close the sale', says: 'Only with the balance under Payout at zero.' },
  closed: null,
};

const BACK: Readonly<Record<Stage, Step | null>> = {
  planned: null,
  intake: null,
  selling: { to: 'intake', act: 'Go back to the intake', says: 'No lot is called until the sale starts again.' },
  settling: { to: 'selling', act: 'Go back to selling', says: 'Lots can be called again.' },
  closed: { to: 'settling', act: 'Reopen the sale', says: 'Corrections can be made again.' },
};

interface StageActsProps {
  readonly saleId: number;
  readonly stage: Stage;
  readonly left: number;
  /** What each stage would do to the stations, as a sentence; empty where they stay. */
  readonly moves: Readonly<Record<Stage, string>>;
}

/** Takes the sale on to its next stage, or back one with a reason; withdraws what is left before it is settled. */
export function StageActs({ saleId, stage, left, moves }: StageActsProps) {
  const { give, busy, refusal, clear } = useGive('office');
  const [asked, setAsked] = useState(false);
  const [answered, setAnswered] = useState<readonly CloseQuestion[]>([]);
  const closing = CLOSE_QUESTIONS.find((one) => refusal?.code === 'needs_answer' && refusal.field === one);
  const yes = closing ? [...answered, closing] : [];
  const forward = FORWARD[stage];
  const back = BACK[stage];
  const inputOf = (step: Step, reason: string) => ({ saleId, stage: step.to, reason });
  /** `answers` are the questions of a closing that were answered with yes: each is asked by itself. */
  const goOn = (step: Step, answers: readonly CloseQuestion[] = []) => {
    setAsked(false);
    setAnswered(answers);
    void give('sale.stage', { ...inputOf(step, ''), answered: answers }, step.act);
  };
  const leaving = forward ? moves[forward.to] : '';
  const question = closing ? refusal?.message : asked ? `${leaving} Do it now?` : undefined;
  const leave = () => {
    setAsked(false);
    clear();
  };
  const leftWords = left === 1 ? 'lot that is left' : `${left} lots that are left`;
  const endsEarly = forward?.to === 'settling' && left > 0;
  return (
    <>
      {refusal && !closing && <Notice kind="stop" title={refusal.message} />}
      {endsEarly && (
        <FoldedAsk
          station="office"
          summary="End bidding…"
          says={`${left === 1 ? '1 lot is' : `${left} lots are`} still to be called: call or withdraw them, or the sale cannot be closed. ${leaving}`}
          act="End bidding"
          command="sale.stage"
          field="left"
          asks={{ label: 'Lots not called', hint: `Type ${left} to end the bidding anyway.`, inputMode: 'numeric' }}
          inputOf={(typed) => ({
            saleId,
            stage: 'settling',
            reason: '',
            left: typed.trim() === '' ? null : wholeNumber(typed),
          })}
        />
      )}
      {forward && question && (
        // Another question is another box, which takes the focus from the one that is answered.
        <AskedFirst key={question} yes={`Yes: ${forward.act}`} busy={busy} act={() => goOn(forward, yes)} leave={leave}>
          {question}
        </AskedFirst>
      )}
      {forward && !endsEarly && !question && (
        <div className="acts">
          <Act
            words={forward.act}
            act={() => (leaving ? setAsked(true) : goOn(forward))}
            main={!leaving}
            disabled={busy}
          />
          <span>{[forward.says, leaving].filter(Boolean).join(' ')}</span>
        </div>
      )}
      {stage === 'selling' && left > 0 && (
        <FoldedAsk
          station="office"
          act={`Withdraw the ${leftWords}`}
          says="They keep their numbers, go home with their sellers, and stand on the sheets as withdrawn. A lot without reserve that has bids has to be called."
          command="lots.withdraw"
          input={{ saleId, seen: left }}
        />
      )}
      {back && (
        <FoldedAsk
          station="office"
          // A step back that was taken leaves no reason behind for the one before it.
          key={back.to}
          act={back.act}
          says={[back.says, moves[back.to]].filter(Boolean).join(' ')}
          command="sale.stage"
          inputOf={(reason) => inputOf(back, reason)}
        />
      )}
    </>
  );
}

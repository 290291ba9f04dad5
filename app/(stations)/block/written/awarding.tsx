'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Act } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { InputOf } from '#db/commands.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';

type Question = WrittenView['questions'][number];

/** What was answered with yes, each for one bid. */
export type BidAnswers = NonNullable<InputOf<'bids.award'>['answered']>;

interface AwardingProps {
  readonly view: WrittenView;
  readonly busy: boolean;
  readonly award: (answered: BidAnswers) => unknown;
}

const keyOf = ({ bidId, question }: Question) => `${bidId} ${question}`;

/** Every question of the Block about the bids that lead, and then the awarding, in one act. */
export function Awarding({ view, busy, award }: AwardingProps) {
  const [yes, setYes] = useState<readonly string[]>([]);
  const open = view.questions.filter((one) => !yes.includes(keyOf(one)));
  const answered = view.questions.filter((one) => yes.includes(keyOf(one)));
  return (
    <section className="sheet" aria-labelledby="awarding">
      <h2 id="awarding">Award the lots</h2>
      <p>
        {view.bids} bids count, on {view.lots.length} open lots. The highest bid at or above the minimum takes a lot. Of
        equal bids the one handed in first takes it.
      </p>
      {open.map((one) => (
        <AskedBid key={keyOf(one)} asked={one} counts={() => setYes([...yes, keyOf(one)])} />
      ))}
      {open.length > 0 ? (
        <p>
          Questions to answer first: <strong>{open.length}</strong>.
        </p>
      ) : (
        <Act
          words="Award the lots"
          act={() => award(answered.map(({ bidId, question }) => ({ bidId, question })))}
          main
          disabled={busy || view.stage !== 'selling'}
        />
      )}
      {view.stage !== 'selling' && (
        <p>The sale is in the stage “{view.stage}”: lots are awarded while it is selling.</p>
      )}
    </section>
  );
}

/** Yes lets the bid count; otherwise it is taken out with a reason, and the next one leads. */
function AskedBid({ asked, counts }: { readonly asked: Question; readonly counts: () => void }) {
  const { bidId, lotNo, buyerNo, price, words } = asked;
  const { give, busy, errorOf, elsewhere, clear } = useGive('block');
  const [reason, setReason] = useState('');
  const takeOut = () => give('bid.retract', { bidId, reason }, `Bid on lot ${lotNo} taken out`);
  const about = `of buyer ${buyerNo} on lot ${lotNo}`;
  return (
    <fieldset className="question">
      <legend>
        Lot {lotNo}: {price} of buyer {buyerNo}
      </legend>
      <p>{words}</p>
      {elsewhere && <p role="alert">{elsewhere}</p>}
      <div className="acts">
        <Act words="Yes, the bid counts" about={about} act={counts} disabled={busy} />
        <TextField
          label={`Why the bid on lot ${lotNo} does not count`}
          value={reason}
          error={errorOf('reason')}
          onText={(text) => {
            setReason(text);
            clear();
          }}
        />
        <Act words="No, take the bid out" about={about} act={takeOut} disabled={busy} />
      </div>
    </fieldset>
  );
}

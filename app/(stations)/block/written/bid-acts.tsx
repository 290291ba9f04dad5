'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface BidActsProps {
  readonly bidId: number;
  readonly lotNo: string;
  readonly price: string;
  /** Once the bids are closed a change is a correction and takes a reason. */
  readonly closed: boolean;
  /** False once the lots are awarded. */
  readonly movable?: boolean;
}

/** Takes back a bid that was entered, or moves one that was typed on the wrong lot. */
export function BidActs({ bidId, lotNo, price, closed, movable = true }: BidActsProps) {
  const [doing, setDoing] = useState<'retract' | 'move'>();
  const [typed, setTyped] = useState({ lotNo: '', reason: '' });
  const { give, busy, errorOf, elsewhere, clear } = useGive('block');
  const set = (over: Partial<typeof typed>) => {
    setTyped({ ...typed, ...over });
    clear();
  };
  const { reason } = typed;
  const retract = () => give('bid.retract', { bidId, reason }, `Bid on lot ${lotNo} taken back`);
  const enter = async () => {
    const to = typed.lotNo.trim();
    const moved = doing === 'move';
    const reply = moved
      ? await give('bid.move', { bidId, lotNo: to, reason }, `Bid moved to lot ${to}`)
      : await retract();
    if (reply.ok) setDoing(undefined);
  };
  const about = `on lot ${lotNo}`;
  if (doing === undefined) {
    return (
      <>
        <Act
          words={`Take back ${price}`}
          about={about}
          act={closed ? () => setDoing('retract') : retract}
          disabled={busy}
        />
        {movable && <Act words={`Move ${price}`} about={about} act={() => setDoing('move')} disabled={busy} />}
      </>
    );
  }
  return (
    <Form onEntered={enter} busy={busy} wrong={elsewhere} className="bid-change">
      {doing === 'move' && (
        <TextField
          label={`Move ${price} to lot`}
          data-aside
          value={typed.lotNo}
          error={errorOf('lotNo')}
          onText={(text) => set({ lotNo: text })}
        />
      )}
      {closed && (
        <TextField
          label="Reason for the change"
          data-aside
          value={reason}
          error={errorOf('reason')}
          onText={(text) => set({ reason: text })}
        />
      )}
      <SubmitActs label={doing === 'move' ? 'Move bid' : `Take back ${price}`} disabled={busy}>
        <Act words="Cancel" act={() => setDoing(undefined)} />
      </SubmitActs>
    </Form>
  );
}

'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Act } from '#app/ui/form.tsx';
import { isTicketText } from '#lib/lot/ticket.ts';
import { useWalkIn } from './walk-in.tsx';

interface BuyerByNumberProps {
  readonly saleId: number;
  readonly nobodys?: string;
  /** What was scanned off a lot, and why it leads to no buyer. */
  readonly ticket?: string;
  readonly wrong?: string | undefined;
}

/**
 * The one box of the till: a buyer number and Enter go to that buyer, or say that nobody has it; W and Enter give a
 * walk-in the next free number. `nobodys` is a number that was typed and is nobody's.
 */
export function BuyerByNumber({ saleId, nobodys, ticket = '', wrong }: BuyerByNumberProps) {
  const router = useRouter();
  const [typed, setTyped] = useState(nobodys ?? ticket);
  const [error, setError] = useState(wrong ?? (nobodys && `There is no buyer number ${nobodys}: check the card.`));
  const { walkIn, busy, asks } = useWalkIn(saleId);
  const go = (event: FormEvent) => {
    event.preventDefault();
    const digits = typed.trim();
    // A ticket leads to whoever bought the lot.
    if (isTicketText(digits)) return router.push(`/till?sale=${saleId}&ticket=${digits}`);
    if (/^w$/i.test(digits)) return void walkIn();
    // Whether there is such a buyer is for the book to say: another till may have registered them this moment.
    if (/^[1-9]\d{0,4}$/.test(digits)) router.push(`/till/${digits}?sale=${saleId}`);
    else setError('Enter a buyer number, such as 12, or W for a walk-in.');
  };
  return (
    <>
      <form className="by-number" onSubmit={go} noValidate>
        <TextField
          label="Buyer number"
          hint="Or a lot’s ticket; W for a walk-in"
          inputMode="numeric"
          // The one box of its page, where the queue begins.
          autoFocus
          error={error}
          value={typed}
          onText={(text) => {
            setTyped(text);
            setError(undefined);
          }}
        />
        <button type="submit" className="act">
          Show the account
        </button>
        <Act words="Walk-in" act={walkIn} disabled={busy} />
      </form>
      {asks}
    </>
  );
}

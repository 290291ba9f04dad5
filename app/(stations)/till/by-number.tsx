'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';

/**
 * The one box of the till: a buyer number and Enter go to that buyer, or say that nobody has it. `nobodys` is a number
 * that was typed and is nobody's.
 */
export function BuyerByNumber({ saleId, nobodys }: { readonly saleId: number; readonly nobodys?: string }) {
  const router = useRouter();
  const [typed, setTyped] = useState(nobodys ?? '');
  const [error, setError] = useState(nobodys && `There is no buyer number ${nobodys}: check the card.`);
  const go = (event: FormEvent) => {
    event.preventDefault();
    const digits = typed.trim();
    // Whether there is such a buyer is for the book to say: another till may have registered them this moment.
    if (/^[1-9]\d{0,4}$/.test(digits)) router.push(`/till/${digits}?sale=${saleId}`);
    else setError('Enter a buyer number, such as 12.');
  };
  return (
    <form className="by-number" onSubmit={go} noValidate>
      <TextField
        label="Buyer number"
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
    </form>
  );
}

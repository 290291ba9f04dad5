'use client';

import { type FormEvent, useRef, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';

interface ScanTicketProps {
  /** Takes what a ticket says, or a lot number; gives whether it was ticked. */
  readonly scan: (text: string) => boolean;
  readonly said: { readonly done?: string; readonly error?: string };
}

/** One ticket after the other: a scanner types what it reads and presses Enter, as a hand can. */
export function ScanTicket({ scan, said }: ScanTicketProps) {
  const [text, setText] = useState('');
  const box = useRef<HTMLInputElement>(null);
  const take = (event: FormEvent) => {
    event.preventDefault();
    if (scan(text)) return setText('');
    // What was refused is marked, so that the next ticket takes its place.
    box.current?.focus();
    box.current?.select();
  };
  return (
    <form className="by-number scan" onSubmit={take} noValidate>
      <TextField
        label="Scan a ticket, or type a lot number"
        autoFocus
        ref={box}
        error={said.error}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit">Tick the lot</button>
      <span role="status">{said.done}</span>
    </form>
  );
}

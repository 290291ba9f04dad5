'use client';

import { type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { readLot } from '#lib/lot-ticket.ts';
import { askLot } from './ask-lot.ts';
import type { LastRow } from './model.ts';
import type { BlockGround } from './use-block.ts';

interface ByNumberProps {
  readonly ground: BlockGround;
  /** What was scanned off a ticket, or empty. */
  readonly scanned: string;
  readonly close: () => void;
  readonly putRight: (row: LastRow) => void;
}

/** Puts up any lot by its number; of a lot that was called already, opens what was taken down. */
export function ByNumber({ ground, scanned, close, putRight }: ByNumberProps) {
  const [typed, setTyped] = useState(() => numberOf(scanned, ground));
  const [before, setBefore] = useState('');
  const [error, setError] = useState<string>();
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus(), []);
  const { view, model, tell } = ground;
  const go = async (event: FormEvent) => {
    event.preventDefault();
    const lotNo = readLot(typed, view.saleId);
    if (!lotNo.ok) return setError(lotNo.message);
    const behind = before === '' ? null : readLot(before, view.saleId);
    if (behind && !behind.ok) return setError(behind.message);
    const input = { saleId: view.saleId, lotNo: lotNo.value, before: behind?.value ?? null };
    const row = model.last.find((one) => one.lotNo === lotNo.value);
    if (row) return putRight(row);
    if (!model.ahead.some((lot) => lot.lotNo === lotNo.value)) {
      const asked = await askLot(view.saleId, lotNo.value);
      if (!asked.ok) return setError(asked.message);
      if (asked.value.called) return putRight({ ...asked.value.called, state: 'book', key: '' });
    }
    tell({ command: 'lot.place', input, label: `Lot ${lotNo.value}` });
    close();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape') close();
  };
  return (
    <form className="call" noValidate onSubmit={go} onKeyDown={onKeyDown} aria-label="Lot by number">
      <div className="call-fields">
        <TextField
          ref={field}
          label="Lot number"
          hint="Enter puts it up, or opens what was taken down for it. Esc goes back."
          inputMode="numeric"
          value={typed}
          error={error}
          onChange={(event) => {
            setTyped(event.target.value);
            setError(undefined);
          }}
        />
        <TextField
          label="Before lot"
          hint="Left empty, it comes up now."
          inputMode="numeric"
          value={before}
          onChange={(event) => {
            setBefore(event.target.value);
            setError(undefined);
          }}
        />
        <button type="submit" className="visually-hidden" tabIndex={-1}>
          Go on
        </button>
      </div>
    </form>
  );
}

/** The lot number on a ticket of this sale; another text stays as it is, to be refused with its reason. */
function numberOf(scanned: string, { view }: BlockGround): string {
  const lot = readLot(scanned, view.saleId);
  return lot.ok ? lot.value : scanned;
}

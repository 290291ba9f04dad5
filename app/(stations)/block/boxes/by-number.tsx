'use client';

import { type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { bufferKeys, takeBufferedKeys } from '#app/(stations)/block/key-buffer.ts';
import type { LastRow } from '#app/(stations)/block/model.ts';
import type { BlockContext } from '#app/(stations)/block/use-block.ts';
import { TextField } from '#app/ui/text-field.tsx';
import { readLot } from '#lib/lot/number.ts';
import { type BoxContext, fetchLot, useMounted, Waits, withUnsavedText } from './box.tsx';

interface ByNumberProps extends BoxContext {
  /** What was scanned off a ticket, or empty. */
  readonly scanned: string;
  readonly putRight: (row: LastRow) => void;
}

/** Puts up any lot by its number; of a lot that was called already, opens what was taken down. */
export function LotByNumber({ context, scanned, close, putRight }: ByNumberProps) {
  const [typed, setTyped] = useState(() => numberOf(scanned, context));
  const [before, setBefore] = useState('');
  const [error, setError] = useState<string>();
  const [asking, setAsking] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const wanted = useMounted();
  useEffect(() => {
    field.current?.focus();
    // A ticket acts at once: whoever scans has no key to press.
    if (scanned) field.current?.form?.requestSubmit();
  }, [scanned]);
  const { view, model, know, submit } = context;
  const refused = (message: string) => {
    setError(message);
    // What was refused is marked, so that the next number or ticket takes its place.
    field.current?.select();
  };
  /** Of a lot that this browser does not know: gives whether it can be put up, and says or opens what there is else. */
  const asked = async (lotNo: string): Promise<boolean> => {
    setAsking(true);
    // A fast clerk types the price of the lot before the answer has come.
    bufferKeys();
    const card = await fetchLot(view.saleId, lotNo);
    if (!wanted.current) return false;
    setAsking(false);
    if (!card.ok) refused(withUnsavedText(card.message, takeBufferedKeys()));
    else if (card.value.called) putRight({ ...card.value.called, state: 'saved', key: '' });
    else know(card.value.lot);
    return card.ok && card.value.called === null;
  };
  const go = async (event: FormEvent) => {
    event.preventDefault();
    if (asking) return;
    const lotNo = readLot(typed, view.saleId);
    if (!lotNo.ok) return refused(lotNo.message);
    const behind = before === '' ? null : readLot(before, view.saleId);
    if (behind && !behind.ok) return setError(behind.message);
    const input = { saleId: view.saleId, lotNo: lotNo.value, before: behind?.value ?? null };
    const row = model.last.find((one) => one.lotNo === lotNo.value);
    if (row) return putRight(row);
    if (!model.ahead.some((lot) => lot.lotNo === lotNo.value) && !(await asked(lotNo.value))) return;
    if (view.stage === 'settling') return setError(withUnsavedText(view.whyNone, takeBufferedKeys()));
    submit({ command: 'lot.place', input, label: `Lot ${lotNo.value}` });
    close();
  };
  const typeInto = (set: (text: string) => void) => (text: string) => {
    set(text);
    setError(undefined);
  };
  const leave = ({ key }: KeyboardEvent) => key === 'Escape' && close();
  return (
    <form className="call" noValidate onSubmit={go} onKeyDown={leave} aria-label="Lot by number">
      <div className="call-fields">
        <TextField
          ref={field}
          label="Lot number"
          hint="Enter puts it up, or opens it."
          inputMode="numeric"
          value={typed}
          error={error}
          onText={typeInto(setTyped)}
        />
        <TextField
          label="Before lot"
          hint="Empty: now."
          inputMode="numeric"
          value={before}
          onText={typeInto(setBefore)}
        />
        <button type="submit" className="visually-hidden" tabIndex={-1}>
          Go on
        </button>
      </div>
      {asking && <Waits what={`Asking for lot ${typed}.`} />}
    </form>
  );
}

/** The lot number on a ticket of this sale; another text stays as it is, to be refused with its reason. */
function numberOf(scanned: string, { view }: BlockContext): string {
  const lot = readLot(scanned, view.saleId);
  return lot.ok ? lot.value : scanned;
}

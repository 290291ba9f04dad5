'use client';

import { type FormEvent, useEffect, useRef, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useListening } from '#app/ui/use-listening.ts';
import { useView } from '#app/ui/use-view.ts';
import type { LeftView } from '#db/queries/bids.ts';
import { NO_NUMBER, readBuyerNo } from '../buyer.ts';
import { goOn } from '../go-on.ts';
import { handOnKeys, holdKeys, takeHeldKeys } from '../held-keys.ts';
import { LeftList } from './left-list.tsx';

/** Bids of buyers who cannot stay: buyer, lot, price, each by Enter. The buyer stays for the next lot of the same list. */
export function Left({ first }: { readonly first: LeftView }) {
  const { view } = useView(first, `/api/views/left?sale=${first.saleId}`);
  const [said, setSaid] = useState({ buyer: '', lotNo: '', price: '' });
  const [unread, setUnread] = useState<string>();
  const [done, setDone] = useState('');
  const [untaken, setUntaken] = useState('');
  const listening = useListening();
  const lotField = useRef<HTMLInputElement>(null);
  const { give, busy, refusal, errorOf, clear } = useGive('block');
  // The next lot may be typed before the answer has come.
  useEffect(() => {
    if (!busy) handOnKeys();
  }, [busy]);
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (goOn() || busy) return;
    const buyerNo = readBuyerNo(said.buyer);
    if (buyerNo === null) return setUnread(NO_NUMBER.message);
    const { lotNo, price } = said;
    const input = { saleId: view.saleId, lotNo, buyerNo, kind: 'left', price } as const;
    holdKeys();
    const reply = await give('bid.leave', input, `Left bid on lot ${lotNo}`);
    if (!reply.ok) return setUntaken(takeHeldKeys());
    setDone(`Taken down: buyer ${buyerNo} on lot ${lotNo} up to ${price}.`);
    setSaid({ ...said, lotNo: '', price: '' });
    lotField.current?.focus();
  };
  const field = (name: 'buyer' | 'lotNo' | 'price', label: string) => ({
    label,
    value: said[name],
    readOnly: busy || !listening,
    onChange: (event: { target: { value: string } }) => {
      setSaid({ ...said, [name]: event.target.value });
      setUnread(undefined);
      setUntaken('');
      clear();
    },
  });
  return (
    <>
      <form className="sheet" onSubmit={save} noValidate aria-label="A left bid">
        <div className="fields">
          <TextField {...field('buyer', 'Buyer number')} inputMode="numeric" error={unread ?? errorOf('buyerNo')} />
          <TextField {...field('lotNo', 'Lot number')} ref={lotField} inputMode="numeric" error={errorOf('lotNo')} />
          <TextField {...field('price', 'Bids up to')} inputMode="decimal" error={errorOf('price')} />
        </div>
        <div className="acts">
          <button type="submit" className="act" disabled={busy}>
            Save
          </button>
        </div>
      </form>
      {refusal && !['buyerNo', 'lotNo', 'price'].includes(refusal.field ?? '') && (
        <Notice kind="stop" title={refusal.message} />
      )}
      {untaken && <Notice kind="stop" title={`Not taken down: ${untaken}.`} />}
      {done && <Notice kind="done" title={done} />}
      <LeftList view={view} />
    </>
  );
}

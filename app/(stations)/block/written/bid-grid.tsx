'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { WrittenLot, WrittenView } from '#db/queries/written-view.ts';
import { readBuyerNo } from '../buyer.ts';

/** One buyer's bid sheet at a time: a price for each lot, Enter saves it and goes on to the next lot. */
export function BidGrid({ view }: { readonly view: WrittenView }) {
  const [typed, setTyped] = useState('');
  const buyerNo = readBuyerNo(typed);
  return (
    <section className="sheet" aria-label="Bid sheet of one buyer">
      <div className="fields">
        <TextField
          label="Buyer number"
          hint="The number on the bid sheet."
          inputMode="numeric"
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
      </div>
      {buyerNo !== null && (
        <div className="scroll-x">
          <table>
            <caption>Bids of buyer {buyerNo}</caption>
            <thead>
              <tr>
                <th scope="col">Lot</th>
                <th scope="col">Goods</th>
                <th scope="col">Minimum</th>
                <th scope="col">Bid</th>
              </tr>
            </thead>
            <tbody>
              {view.lots.map((lot) => (
                <BidRow key={`${buyerNo} ${lot.lotNo}`} lot={lot} buyerNo={buyerNo} saleId={view.saleId} />
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

interface BidRowProps {
  readonly lot: WrittenLot;
  readonly buyerNo: number;
  readonly saleId: number;
}

function BidRow({ lot, buyerNo, saleId }: BidRowProps) {
  const held = lot.bids[buyerNo];
  const [price, setPrice] = useState('');
  const { give, busy, refusal, clear } = useGive('block');
  const save = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    if (price !== '') {
      const input = { saleId, lotNo: lot.lotNo, buyerNo, kind: 'written', price };
      const reply = await give({ command: 'bid.leave', input, label: `Bid on lot ${lot.lotNo}` });
      if (!reply.ok) return;
      setPrice('');
    }
    nextInput(form)?.focus();
  };
  const takeBack = () => {
    if (held)
      void give({ command: 'bid.retract', input: { bidId: held.bidId }, label: `Bid on lot ${lot.lotNo} taken back` });
  };
  return (
    <tr>
      <th scope="row">{lot.lotNo}</th>
      <td>{lot.goodsName}</td>
      <td>{lot.minimum}</td>
      <td>
        <form onSubmit={save} noValidate className="bid-row">
          <TextField
            label={`Bid on lot ${lot.lotNo}${held ? `, now ${held.price}` : ''}`}
            inputMode="decimal"
            value={price}
            error={refusal?.message}
            readOnly={busy}
            onChange={(event) => {
              setPrice(event.target.value);
              clear();
            }}
          />
          {held && (
            <button type="button" onClick={takeBack} disabled={busy}>
              Take {held.price} back
            </button>
          )}
        </form>
      </td>
    </tr>
  );
}

function nextInput(form: HTMLFormElement): HTMLInputElement | undefined {
  const inputs = [...(form.closest('tbody')?.querySelectorAll('input') ?? [])];
  return inputs[inputs.findIndex((input) => form.contains(input)) + 1];
}

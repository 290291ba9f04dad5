'use client';

import { type FormEvent, useState } from 'react';
import { readBuyerNo } from '#app/(stations)/block/question.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Act } from '#app/ui/form.tsx';
import { useListening } from '#app/ui/live-refresh.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads } from '#app/ui/text.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { WrittenLot, WrittenView } from '#db/outcome/written-view.ts';
import { readMoney } from '#lib/money/money.ts';
import { BidActs } from './bid-acts.tsx';
import { utcOf } from './closing-time.tsx';

/** One buyer's bid sheet at a time: a price for each lot, Enter saves it and goes on to the next lot. */
export function BidGrid({ view }: { readonly view: WrittenView }) {
  const listening = useListening();
  const [typed, setTyped] = useState('');
  const [refused, setRefused] = useState<readonly string[]>([]);
  const [handedIn, setHandedIn] = useState('');
  const closed = view.phase === 'closed';
  const buyerNo = readBuyerNo(typed);
  return (
    <section className="sheet" aria-label="Bid sheet of one buyer">
      <div className="fields">
        <TextField
          label="Buyer number"
          hint="The number on the bid sheet."
          inputMode="numeric"
          value={typed}
          readOnly={!listening}
          onText={(text) => {
            setTyped(text);
            // The time is of one sheet: the next one has its own.
            setHandedIn('');
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            // Else the same key would go on a second time, out of the row that has the cursor then.
            event.preventDefault();
            focusNextFrom(event.currentTarget);
          }}
        />
        <TextField
          label="Handed in at"
          hint={
            closed ? 'The time on the sheet. One from after the closing is late.' : 'Leave it empty if it was just now.'
          }
          type="datetime-local"
          {...(!closed && { 'data-aside': true })}
          value={handedIn}
          readOnly={!listening}
          onText={setHandedIn}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            focusNextFrom(event.currentTarget);
          }}
        />
      </div>
      {refused.map((words) => (
        <Notice key={words} kind="stop" title={words}>
          <Act words="I have read it" act={() => setRefused(refused.filter((other) => other !== words))} />
        </Notice>
      ))}
      {buyerNo !== null && (
        <div className="scroll-x">
          <table className="bid-grid">
            <caption>{sheetWords(buyerNo, view)}</caption>
            <ColumnHeads words={['Lot', 'Goods', 'Minimum', 'Bid']} />
            <tbody>
              {view.lots.map((lot) => (
                <BidRow
                  key={`${buyerNo} ${lot.lotNo}`}
                  {...{ lot, buyerNo, closed }}
                  handedInAt={utcOf(handedIn, view.timeZone)}
                  saleId={view.saleId}
                  sayRefused={(words) => setRefused((others) => [...others.filter((other) => other !== words), words])}
                />
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
  readonly closed: boolean;
  /** ISO 8601, UTC; null where nothing was typed. */
  readonly handedInAt: string | null;
  /** Says above the rows what was refused: the cursor has gone on, and perhaps to another buyer. */
  readonly sayRefused: (words: string) => void;
}

function BidRow({ lot, buyerNo, saleId, closed, handedInAt, sayRefused }: BidRowProps) {
  const held = lot.bids[buyerNo];
  const [price, setPrice] = useState('');
  const [unread, setUnread] = useState<string>();
  const { give, busy, refusal, clear } = useGive('block');
  const save = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (busy) return;
    const read = readMoney(price, { allowZero: false });
    if (price !== '' && !read.ok) return setUnread(read.message);
    // On at once: the next price may be typed before the answer has come.
    focusNextFrom(event.currentTarget);
    if (price === '') return;
    const about = { saleId, lotNo: lot.lotNo, buyerNo, kind: 'written', price } as const;
    const input = { ...about, ...(handedInAt !== null && { handedInAt }) };
    const reply = await give('bid.leave', input, `Bid on lot ${lot.lotNo}`);
    if (reply.ok) setPrice('');
    else sayRefused(`Buyer ${buyerNo}, lot ${lot.lotNo}, ${price} was not taken down. ${reply.message}`);
  };
  return (
    <tr>
      <th scope="row">{lot.lotNo}</th>
      <td>
        {lot.quantity} {lot.goodsName}
      </td>
      <td>{lot.minimum}</td>
      <td>
        <form onSubmit={save} noValidate className="bid-row label-unseen">
          <TextField
            label={`Bid on lot ${lot.lotNo}${held ? `, now ${held.price}` : ''}`}
            inputMode="decimal"
            value={price}
            error={unread ?? refusal?.message}
            readOnly={busy}
            onText={(text) => {
              setPrice(text);
              setUnread(undefined);
              clear();
            }}
          />
          <span>{lot.unit}</span>
        </form>
        {held && (
          <div className="bid-row">
            <BidActs key={held.bidId} {...{ ...held, closed }} lotNo={lot.lotNo} />
          </div>
        )}
      </td>
    </tr>
  );
}

/** Whose sheet it is, to be held against the name on the paper. */
function sheetWords(buyerNo: number, { buyers }: WrittenView): string {
  const buyer = buyers.find((one) => one.buyerNo === buyerNo);
  return buyer ? `Bids of buyer ${buyerNo}, ${buyer.name}` : `Nobody has buyer number ${buyerNo}: check the sheet.`;
}

/** On to the next price, also from the time of the sheet; from the last one to the number of the next buyer's sheet. */
function focusNextFrom(here: Element): void {
  const all = [...(here.closest('section')?.querySelectorAll('input') ?? [])];
  const inputs = all.filter((input) => input === here || !('aside' in input.dataset));
  const next = inputs[inputs.findIndex((input) => here.contains(input)) + 1] ?? inputs[0];
  next?.focus();
  next?.select();
}

'use client';

import { type FormEvent, useEffect, useRef, useState } from 'react';
import { bufferKeys, focusNext, replayKeys, takeBufferedKeys } from '#app/(stations)/block/key-buffer.ts';
import { NO_NUMBER, readBuyerNo } from '#app/(stations)/block/question.tsx';
import { utcOf } from '#app/(stations)/block/written/closing-time.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Act, SubmitActs } from '#app/ui/form.tsx';
import { useListening } from '#app/ui/live-refresh.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads, PrintLink } from '#app/ui/text.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useView } from '#app/ui/use-view.ts';
import type { LeftView } from '#db/outcome/bids.ts';
import { readLot } from '#lib/lot/number.ts';
import { typedInWords } from '#lib/payment/amount-words.ts';

/** Bids of buyers who cannot stay: buyer, lot, price, each by Enter. The buyer stays for the next lot of the same list. */
export function Left({ first }: { readonly first: LeftView }) {
  const { view } = useView(first, `/api/views/left?sale=${first.saleId}`);
  const [said, setSaid] = useState({ buyer: '', lotNo: '', price: '' });
  const [handedIn, setHandedIn] = useState('');
  const [unread, setUnread] = useState<string>();
  const [done, setDone] = useState('');
  const [untaken, setUntaken] = useState('');
  const listening = useListening();
  const lotField = useRef<HTMLInputElement>(null);
  const { give, busy, elsewhere, errorOf, clear } = useGive('block');
  // The next lot may be typed before the answer has come.
  useEffect(() => {
    if (!busy) replayKeys();
  }, [busy]);
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (focusNext() || busy) return;
    const buyerNo = readBuyerNo(said.buyer);
    if (buyerNo === null) return setUnread(NO_NUMBER.message);
    // A ticket may be scanned; what is no number is the book's to refuse.
    const read = readLot(said.lotNo, view.saleId);
    const lotNo = read.ok ? read.value : said.lotNo;
    const { price } = said;
    const handedInAt = utcOf(handedIn, view.timeZone);
    const bid = { saleId: view.saleId, lotNo, buyerNo, kind: 'left', price } as const;
    const input = { ...bid, ...(handedInAt !== null && { handedInAt }) };
    bufferKeys();
    const reply = await give('bid.leave', input, `Left bid on lot ${lotNo}`);
    if (!reply.ok) return setUntaken(takeBufferedKeys());
    setDone(`Taken down: buyer ${buyerNo} on lot ${lotNo} up to ${typedInWords(price)}.`);
    setSaid({ ...said, lotNo: '', price: '' });
    lotField.current?.focus();
  };
  const field = (name: 'buyer' | 'lotNo' | 'price', label: string) => ({
    label,
    value: said[name],
    readOnly: busy || !listening,
    onText: (text: string) => {
      setSaid({ ...said, [name]: text });
      // The time is of one list: the next buyer's has its own.
      if (name === 'buyer') setHandedIn('');
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
        <SubmitActs label="Save" main disabled={busy} />
      </form>
      {/* Outside the form, so that Enter goes from price to price. */}
      <div className="fields">
        <TextField
          label="Handed in at"
          hint="Leave it empty if it was just now. Of equal bids the one handed in first applies."
          type="datetime-local"
          value={handedIn}
          readOnly={busy || !listening}
          error={errorOf('handedInAt')}
          onText={(text) => {
            setHandedIn(text);
            clear();
          }}
        />
      </div>
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      {untaken && <Notice kind="stop" title={`Not taken down: ${untaken}.`} />}
      {done && <Notice kind="done" title={done} />}
      <LeftList view={view} />
      <Became bids={view.called} saleId={view.saleId} />
    </>
  );
}

/** Whose bids lie on which lots. Their prices show at the Block when the lot is up, and nowhere before. */
function LeftList({ view: { bids } }: { readonly view: LeftView }) {
  const { give, busy, refusal } = useGive('block');
  if (bids.length === 0) return <p>No bid is left on a lot that is still to be called.</p>;
  return (
    <div className="scroll-x">
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <table>
        <caption>On lots still to be called</caption>
        <ColumnHeads words={['Lot', 'Goods', 'Buyer']} heard="What to do" />
        <tbody>
          {bids.map(({ bidId, lotNo, goodsName, buyerNo, handedIn }) => (
            <tr key={bidId}>
              <th scope="row">{lotNo}</th>
              <td>
                {goodsName}
                {handedIn && <div className="small">handed in {handedIn}</div>}
              </td>
              <td>{buyerNo}</td>
              <td className="figure">
                <Act
                  words="Take back"
                  about={`the bid of buyer ${buyerNo} on lot ${lotNo}`}
                  act={() => give('bid.retract', { bidId }, `Left bid on lot ${lotNo} taken back`)}
                  disabled={busy}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What became of each bid whose lot was called, by buyer: to be read to whoever asks, and printed for each bidder. */
function Became({ bids, saleId }: { readonly bids: LeftView['called'] } & Pick<LeftView, 'saleId'>) {
  if (bids.length === 0) return null;
  return (
    <div className="scroll-x">
      <table>
        <caption>What became of the others</caption>
        <ColumnHeads words={['Buyer', 'Lot', 'Goods', 'Bid up to', 'What became of it']} />
        <tbody>
          {bids.map(({ bidId, lotNo, goodsName, buyerNo, price, became }) => (
            <tr key={bidId}>
              <th scope="row">{buyerNo}</th>
              <td>{lotNo}</td>
              <td>{goodsName}</td>
              <td className="figure">{price}</td>
              <td>{became}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <PrintLink href={`/api/papers/bid-slips?sale=${saleId}`}>Print a results slip for each bidder</PrintLink>
    </div>
  );
}

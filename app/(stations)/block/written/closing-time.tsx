'use client';

import { useEffect, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Act, Form, fieldsOver, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { instantOf } from '#lib/date/date.ts';

/** When the bids close and until when sellers answer; it can be changed until the lots are awarded. */
export function ClosingTime({ view }: { readonly view: WrittenView }) {
  const { saleId, closesAt, answerBy, closedAt, words, timeZone } = view;
  const [typed, setTyped] = useState({ closesAt: '', answerBy: '' });
  const { give, busy, elsewhere, errorOf, clear } = useGive('block');
  const change = (part: Partial<typeof typed>) => {
    setTyped({ ...typed, ...part });
    clear();
  };
  const field = fieldsOver(typed, change, errorOf);
  const save = async () => {
    const input = {
      saleId,
      closesAt: utcOf(typed.closesAt, timeZone) ?? closesAt,
      answerBy: utcOf(typed.answerBy, timeZone) ?? answerBy,
    };
    const reply = await give('bids.closing', input, 'The closing time');
    if (reply.ok) setTyped({ closesAt: '', answerBy: '' });
  };
  return (
    <section className="sheet" aria-label="Closing time">
      <p>
        {closedAt ? (
          <strong>Bids were closed at {words.closedAt}: no more are taken.</strong>
        ) : closesAt ? (
          <strong>Bids close at {words.closesAt}: from then on none is taken down.</strong>
        ) : (
          'No closing time is set: bids are taken down until they are closed here.'
        )}{' '}
        {answerBy && <>Sellers accept or keep until {words.answerBy}.</>}
      </p>
      {!closedAt && (
        <Form onEntered={save} wrong={elsewhere}>
          <div className="times">
            <TextField label="Bids close at" type="datetime-local" {...field('closesAt')} />
            <TextField label="Sellers answer by" type="datetime-local" {...field('answerBy')} />
          </div>
          <SubmitActs label="Set the times" disabled={busy || (typed.closesAt === '' && typed.answerBy === '')} />
        </Form>
      )}
    </section>
  );
}

/** A time on the association's clock as UTC; null where nothing was entered. */
function utcOf(local: string, timeZone: string): string | null {
  const [day = '', time = ''] = local.split('T');
  return day === '' || time === '' ? null : instantOf(day, time, timeZone);
}

interface CloseBidsProps {
  readonly view: WrittenView;
  /** True once the closing time that was set is past. */
  readonly over: boolean;
  readonly busy: boolean;
  readonly close: () => void;
}

/** Closing cannot be taken back, so it is asked once. */
export function CloseBids({ view, over, busy, close }: CloseBidsProps) {
  const [asked, setAsked] = useState(false);
  const act = () => {
    setAsked(false);
    close();
  };
  return (
    <section className="sheet" aria-label="Closing the bids">
      <p>
        {view.bids} bids on {view.lots.length} open lots. The highest bid at or above the minimum takes a lot, a tie
        goes to the earlier one.
      </p>
      {view.closesAt && !over ? (
        <p>
          <strong>Bids close at {view.words.closesAt}. Close them after that, or move the closing time.</strong>
        </p>
      ) : asked ? (
        <div className="acts" role="alert">
          <p>
            <strong>Close the bids and award the lots now?</strong>
          </p>
          <Act words="Yes, award them" act={act} main disabled={busy} />
          <Act words="No, go back" act={() => setAsked(false)} />
        </div>
      ) : (
        <Act words="Close the bids and award" act={() => setAsked(true)} disabled={busy || view.stage !== 'selling'} />
      )}
      {view.stage !== 'selling' && <p>The sale is in the stage “{view.stage}”: bids are closed while it is selling.</p>}
    </section>
  );
}

/** A browser's timer ends at some weeks; a closing time may be further away. */
const LONGEST_MS = 60_000;

/** Whether a moment is past by this machine's clock. Not yet while the page is first drawn, nor where there is none. */
export function useIsPast(at: string | null): boolean {
  const [past, setPast] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = () => {
      const left = at === null ? 0 : Date.parse(at) - Date.now();
      setPast(at !== null && left <= 0);
      if (left > 0) timer = setTimeout(look, Math.min(left, LONGEST_MS));
    };
    look();
    return () => clearTimeout(timer);
  }, [at]);
  return past;
}

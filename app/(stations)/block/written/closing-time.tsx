'use client';

import { useEffect, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Act, Form, fieldsOver, Options, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { instantOf } from '#lib/date/date.ts';

const EMPTY = { closesAt: '', answerBy: '', noAnswer: '', reason: '' };

/** When the bids close and until when sellers answer; it can be changed until the lots are awarded. */
export function ClosingTime({ view }: { readonly view: WrittenView }) {
  const { saleId, phase, closesAt, answerBy, closedAt, words, timeZone } = view;
  const [typed, setTyped] = useState(EMPTY);
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
      noAnswer: (typed.noAnswer || view.noAnswer) as WrittenView['noAnswer'],
      reason: typed.reason,
    };
    const reply = await give('bids.closing', input, 'The closing time');
    if (reply.ok) setTyped(EMPTY);
  };
  return (
    <section className="sheet" aria-label="Closing time">
      <p>
        {closedAt ? (
          <strong>Bids were closed at {words.closedAt}. A sheet handed in after that is late.</strong>
        ) : closesAt ? (
          <strong>
            {phase === 'taking'
              ? `Bids close at ${words.closesAt}: a sheet handed in from then on is late.`
              : `Bids closed at ${words.closesAt}: a sheet handed in from then on is late.`}
          </strong>
        ) : (
          'No closing time is set: bids are taken down until they are closed here.'
        )}{' '}
        {answerBy && (
          <>
            Sellers accept or keep until {words.answerBy}; no answer means {view.noAnswer}.
          </>
        )}
        {words.awardedAt && <> Lots were awarded at {words.awardedAt}.</>}
      </p>
      {!closedAt && !words.awardedAt && (
        <Form onEntered={save} wrong={elsewhere}>
          <div className="times">
            <TextField label="Bids close at" type="datetime-local" {...field('closesAt')} />
            <TextField label="Sellers answer by" type="datetime-local" {...field('answerBy')} />
            <ChoiceField
              label="No answer by then means"
              value={typed.noAnswer || view.noAnswer}
              onPick={(noAnswer) => change({ noAnswer })}
            >
              <Options
                of={[
                  ['kept', 'The seller keeps the lot'],
                  ['accepted', 'The seller accepts the bid'],
                ]}
              />
            </ChoiceField>
            {phase === 'closed' && <TextField label="Reason for the change" {...field('reason')} />}
          </div>
          <SubmitActs
            label="Set the times"
            disabled={busy || typed.closesAt + typed.answerBy + typed.noAnswer === ''}
          />
        </Form>
      )}
    </section>
  );
}

/** A time on the association's clock as UTC; null where nothing was entered. */
export function utcOf(local: string, timeZone: string): string | null {
  const [day = '', time = ''] = local.split('T');
  return day === '' || time === '' ? null : instantOf(day, time, timeZone);
}

interface CloseBidsProps {
  readonly view: WrittenView;
  readonly busy: boolean;
  readonly close: () => void;
}

/** Closing by hand cannot be taken back, so it is asked once. It awards nothing. */
export function CloseBids({ view, busy, close }: CloseBidsProps) {
  const [asked, setAsked] = useState(false);
  const act = () => {
    setAsked(false);
    close();
  };
  return (
    <section className="sheet" aria-label="Closing the bids">
      <p>
        {view.bids} bids on {view.lots.length} open lots.{' '}
        {view.closesAt && `The clock closes them at ${view.words.closesAt}.`}
      </p>
      {asked ? (
        <div className="acts" role="alert">
          <p>
            <strong>Close the bids now? A sheet handed in later does not count.</strong>
          </p>
          <Act words="Yes, close them" act={act} main disabled={busy} />
          <Act words="No, go back" act={() => setAsked(false)} />
        </div>
      ) : (
        <Act words="Close the bids" act={() => setAsked(true)} disabled={busy || view.stage !== 'selling'} />
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

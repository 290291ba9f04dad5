'use client';

import { type KeyboardEvent, useEffect } from 'react';
import type { BlockView } from '#db/queries/block-view.ts';
import { isTicketText } from '#lib/ticket-text.ts';
import { CallFields } from './call-fields.tsx';
import { KeyAct } from './key-act.tsx';
import type { Opened } from './opened.ts';
import { Question } from './question.tsx';
import type { Call } from './use-call.ts';

interface CallFormProps {
  readonly call: Call;
  readonly buyers: BlockView['buyers'];
  readonly hidden: boolean;
  readonly putRight: () => void;
  readonly open: (opened: Opened) => void;
}

/** Price, Enter, buyer number, Enter. Keys of the numeric keypad do the rest, while one of the two fields is in use. */
export function CallForm({ call, buyers, hidden, putRight, open }: CallFormProps) {
  const { lot, refusal, question } = call;
  // A hidden field takes no cursor, so it goes back there once the box beside it has closed.
  useEffect(() => {
    if (!hidden) call.priceField.current?.focus();
  }, [hidden, call.priceField]);
  const unlessTyped = (act: () => void) => () => (call.typed ? call.say(TYPED) : act());
  // No lot stays in hand: it would hide the one that is put up, and one that is divided can be sold by nobody.
  const openFor = (opened: Opened) => {
    call.clear();
    open(opened);
  };
  const byNumber = (scanned: string) => openFor({ kind: 'number', scanned });
  const acts = {
    '*': question === 'below_minimum' ? () => call.unsold('passed') : unlessTyped(() => call.unsold('passed')),
    '/': unlessTyped(() => call.skip(false)),
    '-': unlessTyped(putRight),
    '+': unlessTyped(() => byNumber('')),
    [ESCAPE]: () => goBack(call),
  };
  const enter = () => {
    if (call.loose) return call.keepLoose();
    if (question) return call.answerYes();
    if (isTicketText(call.draft.price) && call.draft.buyer === '') return byNumber(call.draft.price);
    return document.activeElement === call.priceField.current ? call.enterPrice() : call.enterBuyer();
  };
  return (
    <form
      className="call"
      aria-label="Price and buyer"
      noValidate
      hidden={hidden}
      onKeyDown={(event) => pressed(event, acts)}
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
    >
      <CallFields call={call} buyers={buyers} />
      {call.loose && lot && (
        <Question
          message={`This was typed while no lot was up. Is it for lot ${lot.lotNo}?`}
          yes="yes, go on with it."
          no="no, take it out."
        />
      )}
      {refusal && question && <Question message={refusal.message} passes={question === 'below_minimum'} />}
      {refusal &&
        !question &&
        refusal.field !== 'price' &&
        refusal.field !== 'buyerNo' &&
        (refusal.field !== 'hammerAt' || call.draft.time === null) && (
          <p className="field-error" role="alert">
            {refusal.message}
          </p>
        )}
      <button type="submit" className="visually-hidden" tabIndex={-1}>
        Go on
      </button>
      <div className="acts">
        <KeyAct sign="*" words="No-sale" act={acts['*']} />
        <KeyAct sign="/" words="Skip" act={acts['/']} />
        <KeyAct sign="−" words="Put the last right" act={acts['-']} />
        <KeyAct sign="+" words="Lot by number" act={acts['+']} />
        {lot && <KeyAct words={`Seller ${lot.sellerNo} not ready`} act={unlessTyped(() => call.skip(true))} />}
        {lot && <KeyAct words="Withdrawn" act={unlessTyped(() => call.unsold('withdrawn'))} />}
        <KeyAct words="Choice of lots" act={unlessTyped(() => open({ kind: 'choice' }))} />
        {lot && <KeyAct words={`Divide lot ${lot.lotNo}`} act={unlessTyped(() => openFor({ kind: 'divide', lot }))} />}
        <KeyAct words="Note the under-bid" act={unlessTyped(() => open({ kind: 'under' }))} />
        <KeyAct
          words={call.draft.time === null ? 'Enter from paper' : 'No longer from paper'}
          act={unlessTyped(call.fromPaper)}
        />
      </div>
    </form>
  );
}

const ESCAPE = 'Escape';
const TYPED = 'Something is typed for this lot: take it out first, then press the key again.';

function pressed(event: KeyboardEvent, acts: Readonly<Record<string, () => void>>): void {
  const inField = event.target instanceof HTMLInputElement && !event.ctrlKey && !event.altKey && !event.metaKey;
  const act = inField ? acts[event.key] : undefined;
  if (!act) return;
  event.preventDefault();
  act();
}

/** From a question back to the price; from the buyer back to the price; out of a lot for which nothing is typed. */
function goBack(call: Call): void {
  if (call.loose) call.clear();
  else if (call.refusal) call.back();
  else if (call.inHand && !call.typed) call.clear();
  call.priceField.current?.focus();
  call.priceField.current?.select();
}

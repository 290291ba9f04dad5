'use client';

import { type KeyboardEvent, useEffect } from 'react';
import { TextField } from '#app/ui/text-field.tsx';
import type { BlockView } from '#db/outcome/block-view.ts';
import { isTicketText } from '#lib/lot/ticket.ts';
import { amountLineOf } from './call-amount.ts';
import { KeyAct } from './lot-up.tsx';
import { errorAt, Question, Refused, readBuyerNo, SELLER_BUYS } from './question.tsx';
import type { Opened } from './use-block.ts';
import { type Call, focusField } from './use-call.ts';

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
  const unlessTyped = (key: string, act: () => void) => () =>
    call.typed ? call.say(`Clear what is typed first, then press ${key}. Esc keeps it.`) : act();
  // No lot stays in hand: it would hide the one that is put up, and one that is divided can be sold by nobody.
  const openFor = (opened: Opened) => {
    call.clear();
    open(opened);
  };
  const byNumber = (scanned: string) => openFor({ kind: 'number', scanned });
  const acts = {
    '*': question === 'below_minimum' ? () => call.unsold('passed') : unlessTyped('*', () => call.unsold('passed')),
    '/': unlessTyped('/', () => call.skip(false)),
    '-': unlessTyped('−', putRight),
    '+': unlessTyped('+', () => byNumber('')),
    [ESCAPE]: () => goBack(call),
  };
  const act = (words: string, does: () => void) => <KeyAct words={words} act={unlessTyped(words, does)} />;
  const enter = () => {
    if (call.said && call.typed) return;
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
      <p className="call-said" role="status">
        {call.said}
      </p>
      {call.loose && lot && (
        <Question
          message={`This was typed while no lot was up. Is it for lot ${lot.lotNo}?`}
          yes="yes, go on with it."
          no="no, take it out."
        />
      )}
      <Refused refusal={refusal} question={question} drawn={DRAWN} />
      <button type="submit" className="visually-hidden" tabIndex={-1}>
        Go on
      </button>
      <div className="acts">
        <KeyAct sign="*" words="No-sale" act={acts['*']} />
        <KeyAct sign="0" words="Seller buys it back" act={call.boughtBack} />
        <KeyAct sign="/" words="Skip" act={acts['/']} />
        <KeyAct sign="−" words="Put the last right" act={acts['-']} />
        <KeyAct sign="+" words="Lot by number" act={acts['+']} />
        {lot && act(`Seller ${lot.sellerNo} not ready`, () => call.skip(true))}
        {lot && act('Withdrawn', () => call.unsold('withdrawn'))}
        {act('Choice of lots', () => open({ kind: 'choice' }))}
        {lot && act(`Divide lot ${lot.lotNo}`, () => openFor({ kind: 'divide', lot }))}
        {act('Note the under-bid', () => open({ kind: 'under' }))}
        {act(call.draft.time === null ? 'Enter from paper' : 'No longer from paper', call.fromPaper)}
      </div>
    </form>
  );
}

const ESCAPE = 'Escape';
/** The time is drawn only while lots are entered from paper, and no entry has a time otherwise. */
const DRAWN = ['price', 'buyerNo', 'hammerAt'];

function pressed(event: KeyboardEvent, acts: Readonly<Record<string, () => void>>): void {
  const inField = event.target instanceof HTMLInputElement && !event.ctrlKey && !event.altKey && !event.metaKey;
  const act = inField ? acts[event.key] : undefined;
  if (!act) return;
  event.preventDefault();
  act();
}

/** From a sentence or a question back to the price; from the buyer back to the price; out of a lot for which nothing is typed. */
function goBack(call: Call): void {
  if (call.said || (call.refusal && !call.loose)) call.back();
  else if (call.loose || (call.inHand && !call.typed)) call.clear();
  focusField(call.priceField);
}

/** The two fields of a lot, and what they come to before anything is saved. */
function CallFields({ call, buyers }: { readonly call: Call; readonly buyers: BlockView['buyers'] }) {
  const { draft, lot } = call;
  const field = (name: 'price' | 'buyer' | 'time', refusedAs: string) => ({
    name,
    ref: call[`${name}Field`],
    value: draft[name] ?? '',
    error: errorAt(call.refusal, refusedAs),
    onText: (text: string) => call.type({ [name]: text }),
  });
  return (
    <div className="call-fields">
      <TextField {...field('price', 'price')} label={`Price ${lot?.standsFor ?? ''}`} inputMode="decimal" />
      <TextField {...field('buyer', 'buyerNo')} label="Buyer number" inputMode="numeric" />
      {draft.time !== null && (
        <TextField
          {...field('time', 'hammerAt')}
          label="Time on the paper"
          hint="Such as 14:05 or 1405."
          inputMode="numeric"
        />
      )}
      <output className="call-amount" aria-live="off">
        <span className="figure-large">{lot ? amountLineOf(draft.price, lot) : ''}</span>
        <span>{buyerWords(buyers, draft.buyer)}</span>
      </output>
    </div>
  );
}

/** The name behind a buyer number as typed, with what the clerk should know of the buyer before the hammer falls. */
export function buyerWords(buyers: BlockView['buyers'], typed: string): string {
  if (typed === SELLER_BUYS) return 'The seller buys it back.';
  const buyer = buyers.find(({ buyerNo }) => buyerNo === readBuyerNo(typed));
  if (!buyer) return '';
  const { name, cleared, limit } = buyer;
  return [name, cleared ? '' : 'not cleared', limit].filter((words) => words !== '').join(', ');
}

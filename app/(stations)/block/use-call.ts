'use client';

import { useEffect, useRef, useState } from 'react';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { InputOf } from '#db/commands.ts';
import type { BlockLot, BlockView } from '#db/outcome/block-view.ts';
import { readMoney } from '#lib/money/money.ts';
import { decideOutcome } from '#lib/outcome/decide-outcome.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import {
  clockTimeOf,
  type Draft,
  EMPTY_DRAFT,
  type Kind,
  lengthOf,
  NO_LOT_YET,
  nextTyping,
  paperTime,
  useStoredDraft,
} from './draft.ts';
import { buyerOf, buyerTyped, kindTyped, NO_NUMBER, questionIn, readBuyerNo, SELLER_BUYS } from './question.tsx';
import type { BlockContext } from './use-block.ts';

/** The lot in hand, what is typed for it, and what the keys do. */
export function useCall({ view, model, submit }: BlockContext) {
  // A lot that somebody types for stays in hand, whatever comes in meanwhile.
  const [inHand, setInHand] = useState<BlockLot>();
  const [draft, setDraft] = useState(EMPTY_DRAFT);
  const [refusal, setRefusal] = useState<Refusal>();
  const [said, setSaid] = useState('');
  const priceField = useRef<HTMLInputElement>(null);
  const buyerField = useRef<HTMLInputElement>(null);
  const timeField = useRef<HTMLInputElement>(null);
  const next = model.ahead[0];
  const lot = inHand ?? next;
  const typed = lengthOf(draft) > 0;
  const question = questionIn(refusal);

  const type = (change: Partial<Draft>) => {
    const next = nextTyping({ draft, said }, change, lot);
    setInHand(lot);
    setDraft(next.draft);
    say(next.said);
  };
  const say = (sentence: string) => {
    setSaid(sentence);
    setRefusal(undefined);
  };
  const clear = () => {
    setInHand(undefined);
    // Lots on one sheet were called one after the other: the next time is near the last one.
    setDraft({ ...EMPTY_DRAFT, time: draft.time });
    say('');
    priceField.current?.focus();
  };
  const show = (refused: Refusal) => {
    setRefusal(refused);
    goTo(refused.field ?? '', { price: priceField, buyerNo: buyerField, hammerAt: timeField });
  };
  const record = (one: BlockLot, kind: Kind, said: Draft) => {
    const input = recordInput(view, one, kind, said);
    if (!input.ok) return show(input);
    submit({ command: 'outcome.record', input: input.value, label: `Lot ${one.lotNo}` }, said.entryId);
    clear();
  };
  const saveSold = () => (lot ? record(lot, 'sold', draft) : show(NO_LOT));
  const enterPrice = () => {
    const price = readMoney(draft.price, { allowZero: false });
    if (!price.ok) return show({ ...price, field: 'price' });
    setRefusal(undefined);
    focusField(buyerField);
  };
  /** What is typed, with the question that is asked answered. */
  const answers = () => (question ? { ...draft, answered: [...draft.answered, question] } : draft);
  const answerYes = () => {
    if (!lot || !question) return;
    setDraft(answers());
    // Only a no-sale is asked about with nothing typed.
    record(lot, typed ? 'sold' : 'passed', answers());
  };
  const skip = (wholeSeller: boolean) => {
    if (!lot) return say(NO_LOT.message);
    const input = { saleId: view.saleId, lotNo: lot.lotNo, wholeSeller };
    submit({ command: 'lot.skip', input, label: `Lot ${lot.lotNo}` }, draft.entryId);
    clear();
  };

  // What is typed while no lot is up waits; the lot that comes stays in hand until it was asked about.
  useEffect(() => {
    if (typed && !inHand && next) setInHand(next);
  }, [typed, inHand, next]);
  useTypedBefore({ view, model, draft, inHand }, (before, one, why) => {
    setInHand(one);
    setDraft(before);
    setRefusal(why);
  });

  return {
    ...{ lot, inHand, draft, typed, said, refusal, question, priceField, buyerField, timeField },
    /** True while it is to be said whether what was typed is for the lot that came. */
    loose: draft.loose && lot !== undefined,
    ...{ type, clear, enterPrice, answerYes, skip },
    /** What was typed while no lot was up is for the one that came. */
    keepLoose: () => setDraft({ ...draft, loose: false }),
    enterBuyer: () => {
      if (draft.time === null || document.activeElement === timeField.current) return saveSold();
      focusField(timeField);
    },
    /** Turns entering from paper on and off. */
    fromPaper: () => {
      setDraft({ ...draft, time: draft.time === null ? '' : null });
      priceField.current?.focus();
    },
    /** The seller's own bid was the last: the price as it is typed, and nobody who pays it. */
    boughtBack: () => {
      if (!lot) return say(NO_LOT.message);
      const said = { ...draft, buyer: SELLER_BUYS, answered: [] };
      setDraft(said);
      record(lot, 'sold', said);
    },
    unsold: (kind: 'passed' | 'withdrawn') => (lot ? record(lot, kind, answers()) : say(NO_LOT.message)),
    /** Back from a sentence, a question or a refusal to the text as it was typed. */
    back: () => say(''),
    say,
  };
}

export type Call = ReturnType<typeof useCall>;

type Called = Entry<'outcome.record'>;

/** What was typed in an entry that came back. */
function draftOf({ id, input }: Called, time: string | null, aheadMs: number): Draft {
  const { price, buyerNo, answered = [], hammerAt } = input;
  return {
    ...{ price: price ?? '', buyer: buyerTyped(input.kind, buyerNo), answered, entryId: id ?? null },
    time: hammerAt === undefined ? time : clockTimeOf(hammerAt, aheadMs),
    loose: false,
  };
}

type Fields = Readonly<Record<string, React.RefObject<HTMLInputElement | null>>>;

/** Puts the cursor back into the field that a refusal or a question is about. */
function goTo(field: string, fields: Fields): void {
  focusField(fields[PRICE_QUESTIONS.includes(field) ? 'price' : field === 'seller_buys' ? 'buyerNo' : field]);
}

/** The cursor into a field, and what stands there marked: what is typed next takes its place, and is not put behind it. */
export function focusField(field: Fields[string] | undefined): void {
  field?.current?.focus();
  field?.current?.select();
}

const PRICE_QUESTIONS: readonly string[] = ['answer_late', 'below_minimum', 'price_unusual', 'off_step'];
const NO_LOT = refuse('unknown', 'No lot is up: what is typed stays for the next one.', 'price');
const NO_TIME = refuse('malformed', 'Enter the time on the paper, such as 14:05 or 1405.', 'hammerAt');

/** The entry to send, or what is wrong with it or to be asked first: by the same rules by which the book decides. */
function recordInput(view: BlockView, lot: BlockLot, typed: Kind, said: Draft): Result<InputOf<'outcome.record'>> {
  const kind = kindTyped(typed, said.buyer);
  const sold = kind === 'sold';
  const hammered = sold || kind === 'bought_back';
  const price = readMoney(said.price, { allowZero: false });
  if (hammered && !price.ok) return { ...price, field: 'price' };
  const buyerNo = sold ? readBuyerNo(said.buyer) : null;
  if (sold && said.buyer !== '' && buyerNo === null) return NO_NUMBER;
  const proposed = { kind, priceCents: hammered && price.ok ? price.value : null, buyerNo, answered: said.answered };
  const scene = { ...lot.scene, stage: view.stage, buyer: buyerOf(view, lot, buyerNo) };
  const decided = decideOutcome(scene, proposed);
  if (!decided.ok) return decided;
  const { saleId } = view;
  const hammerAt = said.time === null ? undefined : paperTime(said.time, Date.now(), view.aheadMs);
  if (hammerAt === null) return NO_TIME;
  return accept({
    ...{ saleId, lotNo: lot.lotNo, kind, price: hammered ? said.price : null, buyerNo, answered: said.answered },
    ...(hammerAt !== undefined && { hammerAt }),
  });
}

type Before = Pick<BlockContext, 'view' | 'model'> & { readonly draft: Draft; readonly inHand: BlockLot | undefined };

/** Takes up what was typed before a reload, and what was refused and is typed for a lot that is still to be called. */
function useTypedBefore(
  { view, model: { ahead, rejected }, draft, inHand }: Before,
  take: (draft: Draft, lot: BlockLot | undefined, refusal?: Refusal) => void,
): void {
  const keptFor = inHand?.lotNo ?? (draft.loose ? NO_LOT_YET : undefined);
  useStoredDraft({ saleId: view.saleId, lotNo: keptFor, draft, ahead }, take);
  // While nothing is sold there is no form for it to come back to.
  const idle = view.stage === 'selling' && lengthOf(draft) === 0 && !inHand;
  useRejected(idle ? rejected : [], ahead, (entry, one) =>
    take(draftOf(entry, draft.time, view.aheadMs), one, entry.refusal),
  );
}

/** Brings a refused lot back with what was typed, once nothing else is in hand. */
function useRejected(
  rejected: readonly Entry[],
  ahead: readonly BlockLot[],
  bring: (entry: Called, lot: BlockLot) => void,
): void {
  const entry = rejected.find((one): one is Called => lotOf(one, ahead) !== undefined);
  const key = entry?.key;
  const newest = useRef({ entry, ahead, bring });
  newest.current = { entry, ahead, bring };
  useEffect(() => {
    const now = newest.current;
    if (key === undefined || !now.entry) return;
    const lot = lotOf(now.entry, now.ahead);
    if (lot) now.bring(now.entry, lot);
  }, [key]);
}

/** The lot a refused entry was about, where it is still to be called. */
export function lotOf({ command, input }: Entry, ahead: readonly BlockLot[]): BlockLot | undefined {
  if (command !== 'outcome.record') return undefined;
  return ahead.find(({ lotNo }) => lotNo === input.lotNo);
}

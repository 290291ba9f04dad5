'use client';

import { useEffect, useRef, useState } from 'react';
import type { TypedInput } from '#app/ui/whole-number.ts';
import type { LotCard } from '#db/queries/lot-card.ts';
import { decideCorrection, type Question } from '#lib/decide-outcome.ts';
import { formatMoney, parseMoney } from '#lib/money.ts';
import { type Refusal, refuse } from '#lib/result.ts';
import { buyerOf, NO_NUMBER, readBuyerNo } from '../buyer.ts';
import { questionIn } from '../question.tsx';
import type { Kind } from '../typing.ts';
import type { BlockGround } from '../use-block.ts';
import { goInto } from '../use-call.ts';
import { askLot } from './ask-lot.ts';
import type { PutRightProps } from './put-right.tsx';
import { readReason } from './reasons.ts';

interface Said {
  readonly kind: Kind;
  readonly price: string;
  readonly buyer: string;
  readonly reason: string;
  readonly answered: readonly Question[];
}

/** What is typed to put a lot right, what is asked about it, and what Enter does. */
export function usePutRight({ row, ground, close, cameBack }: PutRightProps) {
  const [start] = useState(() => typedIn(cameBack?.input ?? calledAs(row)));
  const [said, setSaid] = useState(start);
  /** Why the key that was pressed last did nothing; what is typed behind it was meant for something else. */
  const [told, setTold] = useState('');
  const typed = said !== start;
  const stays = told !== '' && typed;
  const [refusal, setRefusal] = useState<Refusal | undefined>(cameBack?.refusal);
  const card = useCard(ground.view.saleId, row.lotNo);
  const fields = {
    price: useRef<HTMLInputElement>(null),
    buyer: useRef<HTMLInputElement>(null),
    reason: useRef<HTMLInputElement>(null),
  };
  useEffect(() => goInto(fields.price), [fields.price]);
  const question = questionIn(refusal);
  const change = (part: Partial<Said>) => {
    const next = { ...said, answered: [], ...part };
    if (stays && lengthOf(next) >= lengthOf(said)) return;
    setSaid(next);
    if (!stays) say('');
  };
  const say = (sentence: string) => {
    setTold(sentence);
    setRefusal(undefined);
  };
  const seen = row.outcomeId ? { replacesId: row.outcomeId } : { replacesKey: row.key };
  const of = { lotId: row.lotId, ...seen, reason: readReason(said.reason) };
  const tell: BlockGround['tell'] = (told) => {
    ground.tell(told, cameBack?.id);
    close();
  };
  const save = (now: Said) => {
    const refused = whatIsWrong(now, card, ground);
    if (refused) return setRefusal(refused);
    const { kind, answered } = now;
    const sold = kind === 'sold';
    const figures = { price: sold ? now.price : null, buyerNo: sold ? readBuyerNo(now.buyer) : null };
    tell({
      command: 'outcome.correct',
      input: { ...of, kind, answered, ...figures },
      label: `Lot ${row.lotNo} put right`,
    });
  };
  const enter = () => {
    if (stays) return;
    const answered = question ? [...said.answered, question] : said.answered;
    if (question) setSaid({ ...said, answered });
    const at = document.activeElement;
    if (!question && at === fields.price.current) return goInto(said.kind === 'sold' ? fields.buyer : fields.reason);
    if (!question && at === fields.buyer.current) return goInto(fields.reason);
    save({ ...said, answered });
  };
  const reopen = () => {
    if (of.reason === '') return setRefusal(NO_REASON);
    tell({ command: 'outcome.reopen', input: of, label: `Lot ${row.lotNo} reopened` });
  };
  const unsold = (kind: Kind) => {
    setSaid({ ...said, answered: [], kind });
    say('');
    fields.reason.current?.focus();
  };
  return {
    ...{ said, typed, change, refusal, question, card, fields, enter, reopen, unsold, told, say },
    back: () => say(''),
  };
}

const lengthOf = ({ price, buyer, reason }: Said) => price.length + buyer.length + reason.length;

export type PuttingRight = ReturnType<typeof usePutRight>;

type Typed = Pick<TypedInput<'outcome.record'>, 'kind' | 'price' | 'buyerNo' | 'answered'> & {
  readonly reason?: string;
};

/** What was typed in an entry that came back, so that nothing is typed twice. */
function typedIn({ kind, price, buyerNo, answered = [], reason = '' }: Typed): Said {
  return { kind, price: price ?? '', buyer: String(buyerNo ?? ''), answered, reason };
}

function calledAs({ kind, priceCents, buyerNo }: PutRightProps['row']): Typed {
  return { kind, price: priceCents === null ? null : formatMoney(priceCents), buyerNo };
}

function useCard(saleId: number, lotNo: string): LotCard | undefined {
  const [card, setCard] = useState<LotCard>();
  useEffect(() => {
    let wanted = true;
    void askLot(saleId, lotNo).then((asked) => wanted && asked.ok && setCard(asked.value));
    return () => {
      wanted = false;
    };
  }, [saleId, lotNo]);
  return card;
}

const NO_REASON = refuse('missing', 'Say why: enter the number of a reason, or write one.', 'reason');

/** What is wrong before anything is sent, or what is to be asked; undefined where it can go. */
function whatIsWrong(said: Said, card: LotCard | undefined, { view }: BlockGround): Refusal | undefined {
  const sold = said.kind === 'sold';
  const price = parseMoney(said.price, { allowZero: false });
  const buyerNo = sold ? readBuyerNo(said.buyer) : null;
  if (sold && !price.ok) return { ...price, field: 'price' };
  if (sold && !buyerNo) return NO_NUMBER;
  if (readReason(said.reason) === '') return NO_REASON;
  if (!card) return undefined;
  const { scene } = card.lot;
  const proposed = {
    kind: said.kind,
    priceCents: sold && price.ok ? price.value : null,
    buyerNo,
    answered: said.answered,
  };
  const about = { ...scene, standing: scene.standing ?? 'called', buyer: buyerOf(view, card.lot, buyerNo) };
  const decided = decideCorrection(about, proposed);
  return decided.ok ? undefined : decided;
}

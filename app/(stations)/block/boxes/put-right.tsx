'use client';

import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { amountLineOf } from '#app/(stations)/block/call-amount.ts';
import { buyerWords } from '#app/(stations)/block/call-form.tsx';
import { KeyAct } from '#app/(stations)/block/lot-up.tsx';
import type { LastRow } from '#app/(stations)/block/model.ts';
import {
  buyerOf,
  buyerTyped,
  errorAt,
  kindTyped,
  NO_NUMBER,
  outcomeWords,
  questionIn,
  Refused,
  readBuyerNo,
} from '#app/(stations)/block/question.tsx';
import type { BlockContext, PutRightEntry } from '#app/(stations)/block/use-block.ts';
import { focusField } from '#app/(stations)/block/use-call.ts';
import { TextField, type TypedInput } from '#app/ui/text-field.tsx';
import type { LotCard } from '#db/lot/queries.ts';
import type { BlockView } from '#db/outcome/block-view.ts';
import { formatMoney, readMoney } from '#lib/money/money.ts';
import { decideCorrection, type OutcomeQuestion } from '#lib/outcome/decide-outcome.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import type { Measured } from '#lib/sale/facts.ts';
import { type BoxContext, fetchLot } from './box.tsx';

interface PutRightProps extends BoxContext {
  readonly row: LastRow;
  readonly open: (row: LastRow | undefined) => void;
  /** A refused entry about this lot, whose text is taken up again. */
  readonly rejected: PutRightEntry | undefined;
}

/** Puts a lot right by a further outcome with a reason: price, buyer, reason, each by Enter. Both outcomes are kept. */
export function PutRight(props: PutRightProps) {
  const { row, context, close, open } = props;
  const right = usePutRight(props);
  const { said, refusal, question, card, fields, unsold } = right;
  const { last } = context.model;
  const older = last[last.findIndex(({ lotId }) => lotId === row.lotId) + 1];
  const toOlder = () => {
    if (right.typed) right.say(`Save lot ${row.lotNo} first. Esc keeps it.`);
    else if (older) open(older);
    else right.say('For an earlier lot: Esc, then +.');
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const inFigures = [fields.price.current, fields.buyer.current].some((field) => field === event.target);
    const acts: Readonly<Record<string, () => void>> = { '*': () => unsold('passed'), '-': toOlder };
    const leave = question || right.notice ? right.back : close;
    const act = event.key === 'Escape' ? leave : inFigures ? acts[event.key] : undefined;
    if (!act) return;
    event.preventDefault();
    act();
  };
  return (
    <form
      className="call put-right"
      noValidate
      aria-labelledby="put-right"
      onKeyDown={onKeyDown}
      onSubmit={(event) => {
        event.preventDefault();
        right.enter();
      }}
    >
      <h2 id="put-right">Put lot {row.lotNo} right</h2>
      <p>
        It is {outcomeWords(row)}. <span className="soft">Both are kept, with the reason.</span>
      </p>
      {card?.touches.map((sentence) => (
        <p key={sentence}>
          <strong>{sentence}</strong>
        </p>
      ))}
      <PutRightFields right={right} measured={row.measured} buyers={context.view.buyers} />
      <p className="call-said" role="status">
        {right.notice}
      </p>
      <Refused refusal={refusal} question={question} drawn={['price', 'buyerNo', 'reason']} />
      <div className="acts">
        <button type="submit" className="act">
          Save
        </button>
        {said.kind !== 'passed' && <KeyAct sign="*" words="No-sale" act={() => unsold('passed')} />}
        {said.kind !== 'withdrawn' && <KeyAct words="Withdrawn" act={() => unsold('withdrawn')} />}
        {context.view.stage === 'selling' && <KeyAct words="Open the bidding again" act={right.reopen} />}
        {card?.underBid && <KeyAct words={`Under-bid ${card.underBid.price}`} act={right.takeUnderBid} />}
        {older && <KeyAct sign="−" words={`Lot ${older.lotNo} instead`} act={toOlder} />}
        <KeyAct sign="Esc" words="Leave it" act={close} />
      </div>
    </form>
  );
}

/** Reasons that a digit of the keypad gives, because a correction in the middle of a sale must take a moment only. */
const REASONS = ['price misheard', 'buyer number misheard', 'typed wrong', 'announced again'] as const;

/** The reason a person gave: a digit of the list, or their own words. */
function readReason(typed: string): string {
  const words = typed.trim();
  return /^[1-4]$/.test(words) ? (REASONS[Number.parseInt(words, 10) - 1] ?? '') : words;
}

interface PutRightFieldsProps {
  readonly right: PuttingRight;
  readonly measured: Measured;
  readonly buyers: BlockView['buyers'];
}

/** Price, buyer and reason of a lot that is put right. */
function PutRightFields({ right, measured, buyers }: PutRightFieldsProps) {
  const { said, change, fields, refusal } = right;
  const field = (name: keyof typeof fields, more: Partial<Said>, refusedAs: string = name) => ({
    ref: fields[name],
    value: said[name],
    error: errorAt(refusal, refusedAs),
    onText: (text: string) => change({ ...more, [name]: text }),
  });
  return (
    <div className="call-fields">
      <TextField {...field('price', SOLD)} label="Price" inputMode="decimal" />
      <TextField {...field('buyer', SOLD, 'buyerNo')} label="Buyer number" inputMode="numeric" />
      <output className="call-amount" aria-live="off">
        <span className="figure-large">
          {said.kind === 'sold' ? amountLineOf(said.price, measured) : BECOMES[said.kind]}
        </span>
        <span>{said.kind === 'sold' && buyerWords(buyers, said.buyer)}</span>
      </output>
      <div className="put-right-reason">
        <TextField
          {...field('reason', {})}
          label="Reason"
          hint={`${REASONS.map((words, at) => `${at + 1} ${words}`).join(', ')}; or write why.`}
        />
      </div>
    </div>
  );
}

/** Whoever types a price or a buyer says that the lot is sold. */
const SOLD = { kind: 'sold' } as const;
const BECOMES = { passed: 'No-sale', withdrawn: 'Withdrawn' } as const;
type BoxKind = 'sold' | keyof typeof BECOMES;

interface Said {
  /** A lot that its seller buys back is sold to the number 0 in this box. */
  readonly kind: BoxKind;
  readonly price: string;
  readonly buyer: string;
  readonly reason: string;
  readonly answered: readonly OutcomeQuestion[];
}

/** What is typed to put a lot right, what is asked about it, and what Enter does. */
function usePutRight({ row, context, close, rejected }: PutRightProps) {
  const [start] = useState(() => typedIn(rejected?.input ?? calledAs(row)));
  const [said, setSaid] = useState(start);
  /** Why the key that was pressed last did nothing; what is typed behind it was meant for something else. */
  const [notice, setNotice] = useState('');
  const typed = said !== start;
  const stays = notice !== '' && typed;
  const [refusal, setRefusal] = useState<Refusal | undefined>(rejected?.refusal);
  const card = useCard(context.view.saleId, row.lotNo);
  const fields = {
    price: useRef<HTMLInputElement>(null),
    buyer: useRef<HTMLInputElement>(null),
    reason: useRef<HTMLInputElement>(null),
  };
  useEffect(() => focusField(fields.price), [fields.price]);
  const question = questionIn(refusal);
  const change = (part: Partial<Said>) => {
    const next = { ...said, answered: [], ...part };
    if (stays && lengthOf(next) >= lengthOf(said)) return;
    setSaid(next);
    if (!stays) say('');
  };
  const say = (sentence: string) => {
    setNotice(sentence);
    setRefusal(undefined);
  };
  const seen = row.outcomeId ? { replacesId: row.outcomeId } : { replacesKey: row.key };
  const of = { lotId: row.lotId, ...seen, reason: readReason(said.reason) };
  const submit: BlockContext['submit'] = (submission) => {
    context.submit(submission, rejected?.id);
    close();
  };
  const save = (now: Said) => {
    const refused = whatIsWrong(now, card, context);
    if (refused) return setRefusal(refused);
    const { answered } = now;
    const kind = kindTyped(now.kind, now.buyer);
    const figures = {
      price: now.kind === 'sold' ? now.price : null,
      buyerNo: kind === 'sold' ? readBuyerNo(now.buyer) : null,
    };
    submit({
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
    if (!question && at === fields.price.current)
      return focusField(said.kind === 'sold' ? fields.buyer : fields.reason);
    if (!question && at === fields.buyer.current) return focusField(fields.reason);
    save({ ...said, answered });
  };
  const reopen = () => {
    if (of.reason === '') return setRefusal(NO_REASON);
    submit({ command: 'outcome.reopen', input: of, label: `Lot ${row.lotNo} reopened` });
  };
  const takeUnderBid = () => {
    const now = { ...said, ...SOLD, ...card?.underBid, answered: [] };
    setSaid(now);
    save(now);
  };
  const unsold = (kind: keyof typeof BECOMES) => {
    setSaid({ ...said, answered: [], kind });
    say('');
    fields.reason.current?.focus();
  };
  return {
    ...{ said, typed, change, refusal, question, card, fields, enter, reopen, takeUnderBid, unsold, notice, say },
    back: () => say(''),
  };
}

const lengthOf = ({ price, buyer, reason }: Said) => price.length + buyer.length + reason.length;

type PuttingRight = ReturnType<typeof usePutRight>;

type Typed = Pick<TypedInput<'outcome.record'>, 'price' | 'buyerNo' | 'answered'> & {
  readonly kind: LastRow['kind'];
  readonly reason?: string;
};

/** What was typed in an entry that came back, so that nothing is typed twice. */
function typedIn({ kind, price, buyerNo, answered = [], reason = '' }: Typed): Said {
  // One that was not paid for was sold: whoever puts it right says that it is, or to whom.
  const box = kind === 'passed' || kind === 'withdrawn' ? kind : 'sold';
  return { kind: box, price: price ?? '', buyer: buyerTyped(kind, buyerNo), answered, reason };
}

function calledAs({ kind, priceCents, buyerNo }: PutRightProps['row']): Typed {
  return { kind, price: priceCents === null ? null : formatMoney(priceCents), buyerNo };
}

function useCard(saleId: number, lotNo: string): LotCard | undefined {
  const [card, setCard] = useState<LotCard>();
  useEffect(() => {
    let wanted = true;
    void fetchLot(saleId, lotNo).then((asked) => wanted && asked.ok && setCard(asked.value));
    return () => {
      wanted = false;
    };
  }, [saleId, lotNo]);
  return card;
}

const NO_REASON = refuse('missing', 'Say why: enter the number of a reason, or write one.', 'reason');

/** What is wrong before anything is sent, or what is to be asked; undefined where it can go. */
function whatIsWrong(said: Said, card: LotCard | undefined, { view }: BlockContext): Refusal | undefined {
  const kind = kindTyped(said.kind, said.buyer);
  const sold = kind === 'sold';
  const hammered = said.kind === 'sold';
  const price = readMoney(said.price, { allowZero: false });
  const buyerNo = sold ? readBuyerNo(said.buyer) : null;
  if (hammered && !price.ok) return { ...price, field: 'price' };
  if (sold && !buyerNo) return NO_NUMBER;
  if (readReason(said.reason) === '') return NO_REASON;
  if (!card) return undefined;
  const { scene } = card.lot;
  const proposed = {
    kind,
    priceCents: hammered && price.ok ? price.value : null,
    buyerNo,
    answered: said.answered,
  };
  const about = { ...scene, standing: scene.standing ?? 'called', buyer: buyerOf(view, card.lot, buyerNo) };
  const decided = decideCorrection(about, proposed);
  return decided.ok ? undefined : decided;
}

'use client';

import { useState } from 'react';
import { amountLineOf, previewAmount } from '#app/(stations)/block/call-amount.ts';
import { buyerWords } from '#app/(stations)/block/call-form.tsx';
import { focusNext } from '#app/(stations)/block/key-buffer.ts';
import {
  buyerOf,
  errorAt,
  NO_NUMBER,
  questionIn,
  Refused,
  readBuyerNo,
  SELLER_BUYS,
} from '#app/(stations)/block/question.tsx';
import type { BlockContext } from '#app/(stations)/block/use-block.ts';
import type { Entry } from '#app/ui/outbox-store.ts';
import { TextField } from '#app/ui/text-field.tsx';
import type { BlockLot } from '#db/outcome/block-view.ts';
import { type LotNo, parseLotList } from '#lib/lot/number.ts';
import { type Cents, readMoney, showMoney } from '#lib/money/money.ts';
import { type OutcomeQuestion as Asked, decideOutcome } from '#lib/outcome/decide-outcome.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { Box, type BoxContext } from './box.tsx';

interface ChoiceProps extends BoxContext {
  /** A refused choice, whose text is taken up again. */
  readonly rejected: Entry<'outcome.choice'> | undefined;
}

/** A choice: one buyer takes several lots at one price each, in one entry. */
export function ChoiceOfLots({ context, close, rejected }: ChoiceProps) {
  const [said, setSaid] = useState(() => typedIn(rejected, context.model.ahead[0]));
  const [refusal, setRefusal] = useState<Refusal | undefined>(rejected?.refusal);
  const question = questionIn(refusal);
  const change = (part: Partial<typeof said>) => {
    setSaid({ ...said, answered: [], ...part });
    setRefusal(undefined);
  };
  const enter = () => {
    if (!question && focusNext()) return;
    const answered = question ? [...said.answered, question] : said.answered;
    setSaid({ ...said, answered });
    const list = parseLotList(said.lots);
    const { price } = said;
    const buyerNo = readBuyerNo(said.buyer);
    const refused = list.ok ? whatIsWrong({ price, buyerNo, answered }, list.value, context) : list;
    if (said.buyer === SELLER_BUYS) return setRefusal(BY_ITSELF);
    if (!list.ok || refused || !buyerNo) return setRefusal(refused);
    const lots = list.value.join('+');
    const input = { saleId: context.view.saleId, lots, price, buyerNo, answered };
    context.submit({ command: 'outcome.choice', input, label: `Lots ${lots}` }, rejected?.id);
    close();
  };
  const field = (name: 'lots' | 'price' | 'buyer', refusedAs: string = name) => ({
    value: said[name],
    error: errorAt(refusal, refusedAs),
    onText: (text: string) => change({ [name]: text }),
  });
  return (
    <Box label="Choice of lots at one price each" enter={enter} close={close}>
      <TextField {...field('lots')} autoFocus label="Lots" hint="12+15+18" inputMode="numeric" />
      <TextField {...field('price')} label="Price" inputMode="decimal" />
      <TextField {...field('buyer', 'buyerNo')} label="Buyer number" inputMode="numeric" />
      <output className="call-amount" aria-live="off">
        <span>{amountsOf(said, context)}</span>
        <span>{buyerWords(context.view.buyers, said.buyer)}</span>
      </output>
      <Refused refusal={refusal} question={question} drawn={['lots', 'price', 'buyerNo']} />
    </Box>
  );
}

const BY_ITSELF = refuse('malformed', 'Take it down by itself.', 'buyerNo');

interface Said {
  readonly lots: string;
  readonly price: string;
  readonly buyer: string;
  readonly answered: readonly Asked[];
}

/** The lot that is up stands there already: the others are typed behind it. */
function typedIn(entry: Entry<'outcome.choice'> | undefined, up: BlockLot | undefined): Said {
  const { buyerNo = '', ...typed } = entry?.input ?? {};
  return { lots: `${up?.lotNo ?? ''}+`, price: '', answered: [], ...typed, buyer: String(buyerNo) };
}

/** What each lot comes to, and all together, of those that this browser knows: seen before it is saved. */
function amountsOf({ lots, price: typed }: Said, { model }: BlockContext): string {
  const list = parseLotList(lots);
  const price = readMoney(typed, { allowZero: false });
  if (!list.ok || !price.ok) return '';
  let together = 0;
  const lines = list.value.map((lotNo) => {
    const lot = model.ahead.find((one) => one.lotNo === lotNo);
    const line = lot && amountLineOf(typed, lot);
    if (line) together += previewAmount(price.value, lot);
    return `Lot ${lotNo}: ${line || '?'}`;
  });
  return `${lines.join('; ')}; all ${showMoney(together as Cents)}`;
}

/** By the rules by which the book decides, for the lots this browser knows of; the others are decided by the book. */
function whatIsWrong(
  { price: typed, buyerNo, answered }: Pick<Said, 'price' | 'answered'> & { readonly buyerNo: number | null },
  lots: readonly LotNo[],
  { view, model }: BlockContext,
): Refusal | undefined {
  const price = readMoney(typed, { allowZero: false });
  if (!price.ok) return { ...price, field: 'price' };
  if (!buyerNo) return NO_NUMBER;
  for (const lotNo of lots) {
    const lot = model.ahead.find((one) => one.lotNo === lotNo);
    if (!lot) continue;
    const scene = { ...lot.scene, stage: view.stage, buyer: buyerOf(view, lot, buyerNo) };
    const decided = decideOutcome(scene, { kind: 'sold', priceCents: price.value, buyerNo, answered });
    if (decided.ok) continue;
    const field = decided.field === 'lotNo' ? 'lots' : (decided.field ?? 'lots');
    return { ...decided, message: `Lot ${lotNo}. ${decided.message}`, field };
  }
  return undefined;
}

'use client';

import { useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { useSentences } from '#app/ui/use-give.ts';
import type { GoodsChoice } from '#db/sale/goods.ts';
import type { Refusal } from '#lib/result/result.ts';
import { TAG_YEAR } from '#lib/tag/head.ts';
import { askYear, type IntakeRow, lotInput, ROW_FIELDS, type RowField, stopAfter } from './row.ts';

/** A row being typed: its text, what was refused of it, and where Enter goes next. */
export function useRow(first: IntakeRow, choices: readonly GoodsChoice[], save: (now: IntakeRow) => void) {
  const [row, draw] = useState(first);
  const present = useRef(first);
  const setRow = (now: IntakeRow) => {
    present.current = now;
    draw(now);
  };
  const [refusal, setRefusal] = useState<Refusal>();
  const inputs = useRef<Partial<Record<RowField, HTMLInputElement | null>>>({});
  const goodsOf = (one: IntakeRow) => choices.find(({ goods }) => goods === one.goods);
  const question = refusal?.field === TAG_YEAR ? refusal : undefined;
  /** Draws the row, for the goods decide which fields there are, and goes on before the next key is heard. */
  const goTo = (field: RowField, now: IntakeRow, wrong?: Refusal) => {
    flushSync(() => {
      setRow(now);
      setRefusal(wrong);
    });
    (inputs.current[field] ?? inputs.current.goods)?.focus();
  };
  /** To the next field that the row needs; behind the last one it is saved. */
  const focusNext = (from: RowField, change: Partial<IntakeRow> = {}) => {
    const now = { ...present.current, ...change };
    const kind = goodsOf(now);
    // Without goods nobody knows what the row needs: saving it says so.
    const after = kind && stopAfter(from, now, kind);
    if (after === undefined) save(now);
    else goTo(after, now, refusal);
  };
  /** What goes to the book; undefined where something is wrong or asked first, which is said then. Enter says yes. */
  const inputOf = (now: IntakeRow, had: readonly string[] = []) => {
    const input = lotInput(now, goodsOf(now));
    const asked = input.ok && !question ? askYear(now, goodsOf(now), had) : null;
    const wrong = asked ?? input;
    if (wrong.ok) return wrong.value;
    goTo(rowFieldOf(wrong), now, wrong);
    return undefined;
  };
  return {
    ...{ row, question, goods: goodsOf(row), goodsOf, goTo, focusNext, inputOf, present },
    set: (change: Partial<IntakeRow>) => {
      setRow({ ...present.current, ...change });
      // The question was about the row as it was.
      if (question) setRefusal(undefined);
    },
    takeBack: () => setRefusal(undefined),
    refFor: (field: RowField) => (input: HTMLInputElement | null) => {
      inputs.current[field] = input;
    },
    ...useSentences(question ? undefined : refusal),
  };
}

/** Where the focus goes so that what was refused can be put right at once. */
export function rowFieldOf(refusal: Refusal): RowField {
  if (refusal.field === TAG_YEAR) return 'tags';
  return ROW_FIELDS.find((field) => field === refusal.field) ?? 'goods';
}

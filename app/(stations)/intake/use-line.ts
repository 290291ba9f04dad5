'use client';

import { useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { useSentences } from '#app/ui/use-give.ts';
import type { GoodsChoice } from '#db/sale/goods.ts';
import type { Refusal } from '#lib/result/result.ts';
import { TAG_YEAR } from '#lib/tag/head.ts';
import { askYear, LINE_FIELDS, type Line, type LineField, lotInput, stopAfter } from './line.ts';

/** A line being typed: its text, what was refused of it, and where Enter goes next. */
export function useLine(first: Line, choices: readonly GoodsChoice[], save: (now: Line) => void) {
  const [line, draw] = useState(first);
  const present = useRef(first);
  const setLine = (now: Line) => {
    present.current = now;
    draw(now);
  };
  const [refusal, setRefusal] = useState<Refusal>();
  const inputs = useRef<Partial<Record<LineField, HTMLInputElement | null>>>({});
  const goodsOf = (one: Line) => choices.find(({ goods }) => goods === one.goods);
  const question = refusal?.field === TAG_YEAR ? refusal : undefined;
  /** Draws the line, for the goods decide which fields there are, and goes on before the next key is heard. */
  const goTo = (field: LineField, now: Line, wrong?: Refusal) => {
    flushSync(() => {
      setLine(now);
      setRefusal(wrong);
    });
    (inputs.current[field] ?? inputs.current.goods)?.focus();
  };
  /** To the next field that the line needs; behind the last one it is saved. */
  const goOn = (from: LineField, change: Partial<Line> = {}) => {
    const now = { ...present.current, ...change };
    const kind = goodsOf(now);
    // Without goods nobody knows what the line needs: saving it says so.
    const after = kind && stopAfter(from, now, kind);
    if (after === undefined) save(now);
    else goTo(after, now, refusal);
  };
  /** What goes to the book; undefined where something is wrong or asked first, which is said then. Enter says yes. */
  const inputOf = (now: Line, had: readonly string[] = []) => {
    const input = lotInput(now, goodsOf(now));
    const asked = input.ok && !question ? askYear(now, goodsOf(now), had) : null;
    const wrong = asked ?? input;
    if (wrong.ok) return wrong.value;
    goTo(fieldOf(wrong), now, wrong);
    return undefined;
  };
  return {
    line,
    setLine,
    refusal,
    question,
    goods: goodsOf(line),
    goodsOf,
    goTo,
    goOn,
    inputOf,
    present,
    set: (change: Partial<Line>) => {
      setLine({ ...present.current, ...change });
      // The question was about the line as it was.
      if (question) setRefusal(undefined);
    },
    takeBack: () => setRefusal(undefined),
    refFor: (field: LineField) => (input: HTMLInputElement | null) => {
      inputs.current[field] = input;
    },
    ...useSentences(question ? undefined : refusal),
  };
}

/** Where the focus goes so that what was refused can be put right at once. */
export function fieldOf(refusal: Refusal): LineField {
  if (refusal.field === TAG_YEAR) return 'tags';
  return LINE_FIELDS.find((field) => field === refusal.field) ?? 'goods';
}

'use client';

import { useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import type { GoodsChoice } from '#db/queries/goods-choices.ts';
import type { Refusal } from '#lib/result.ts';
import { type Line, type Stop, stopsOf } from './line.ts';

/** A line being typed: its text, what was refused of it, and where Enter goes next. */
export function useLine(first: Line, choices: readonly GoodsChoice[]) {
  const [line, draw] = useState(first);
  const present = useRef(first);
  const setLine = (now: Line) => {
    present.current = now;
    draw(now);
  };
  const [refusal, setRefusal] = useState<Refusal>();
  const inputs = useRef<Partial<Record<Stop, HTMLInputElement | null>>>({});
  const goodsOf = (one: Line) => choices.find(({ goods }) => goods === one.goods);
  /** Draws the line, for the goods decide which fields there are, and goes on before the next key is heard. */
  const goTo = (stop: Stop, now: Line, wrong?: Refusal) => {
    flushSync(() => {
      setLine(now);
      setRefusal(wrong);
    });
    inputs.current[stop]?.focus();
  };
  /** To the next field the line needs; false where there is none. */
  const next = (from: Stop, now: Line): boolean => {
    const stops = stopsOf(now, goodsOf(now));
    const at = stops.indexOf(from);
    const after = stops[at + 1];
    if (after === undefined) return false;
    goTo(after, now, refusal);
    return true;
  };
  return {
    line,
    setLine,
    refusal,
    setRefusal,
    goods: goodsOf(line),
    goodsOf,
    goTo,
    next,
    present,
    set: (change: Partial<Line>) => setLine({ ...present.current, ...change }),
    refFor: (stop: Stop) => (input: HTMLInputElement | null) => {
      inputs.current[stop] = input;
    },
    errorOf: (field: string) => [refusal, ...(refusal?.also ?? [])].find((one) => one?.field === field)?.message,
  };
}

const FIELDS = new Set(['goods', 'count', 'weight', 'size', 'grade', 'section', 'minimum', 'tags', 'takenIn', 'note']);

/** The sentence of a refusal that is about no field of the line. */
export function elsewhere(refusal: Refusal | undefined): string | undefined {
  return refusal && !FIELDS.has(refusal.field ?? '') ? refusal.message : undefined;
}

const STOPS: readonly Stop[] = ['goods', 'count', 'weight', 'size', 'grade', 'tags'];

/** Where the focus goes so that what was refused can be put right at once. */
export function stopOf(refusal: Refusal): Stop {
  return STOPS.find((stop) => stop === refusal.field) ?? 'goods';
}

'use client';

import { useEffect, useRef } from 'react';
import { readStored, writeStored } from '#app/ui/storage.ts';
/** What the keys put into the boxes of a lot. */
import type { InputOf } from '#db/commands.ts';
import type { BlockLot } from '#db/outcome/block-view.ts';
import type { OutcomeQuestion } from '#lib/outcome/decide-outcome.ts';

export interface Draft {
  readonly price: string;
  readonly buyer: string;
  readonly answered: readonly OutcomeQuestion[];
  /** The refused entry that this text came back from. */
  readonly entryId: number | null;
  /** The time on the paper, as typed; null while lots are entered as they are called. */
  readonly time: string | null;
  /** True for text that was typed while no lot was up: whoever typed it says whether it is for the one that came. */
  readonly loose: boolean;
}

export const EMPTY_DRAFT: Draft = { price: '', buyer: '', answered: [], entryId: null, time: null, loose: false };

export type Kind = InputOf<'outcome.record'>['kind'];

export interface Typing {
  readonly draft: Draft;
  /** Why the key that was pressed last did nothing, in a sentence; empty where it did what it is for. */
  readonly said: string;
}

/** How much is typed for a lot. */
export const lengthOf = ({ price, buyer }: Draft): number => (price + buyer).length;

/**
 * The boxes after a change. A key that could not act has put nothing into them: what comes behind it was meant for
 * something else and is not taken either, until the boxes are empty or Escape goes back to them. Taking out is heard.
 */
export function nextTyping({ draft, said }: Typing, change: Partial<Draft>, lot: BlockLot | undefined): Typing {
  const typed = { ...draft, answered: [], ...change };
  const length = lengthOf(typed);
  const stays = said !== '' && lengthOf(draft) > 0;
  if (stays && length >= lengthOf(draft)) return { draft, said };
  // What is typed while no lot is up is loose until somebody says whose it is.
  const next = { ...typed, loose: (draft.loose || !lot) && length > 0 };
  return { draft: next, said: stays && length > 0 ? said : '' };
}

/** In the place of a lot number, for what was typed while no lot was up. */
export const NO_LOT_YET = '';

interface DraftTyping {
  readonly saleId: number;
  /** The lot in hand; undefined while nothing is typed. */
  readonly lotNo: string | undefined;
  readonly draft: Draft;
  readonly ahead: readonly BlockLot[];
}

interface Kept {
  readonly lotNo: string;
  readonly draft: Draft;
}

/** Keeps what is typed over a reload of this tab, and brings it back while its lot is still to be called. */
export function useStoredDraft(
  { saleId, lotNo, draft, ahead }: DraftTyping,
  bring: (draft: Draft, lot: BlockLot | undefined) => void,
): void {
  const place = `peltry-block-${saleId}`;
  const first = useRef(true);
  useEffect(() => {
    if (first.current) {
      first.current = false;
      const kept = JSON.parse(readStored('sessionStorage', place) ?? 'null') as Kept | null;
      const lot = kept && ahead.find((one) => one.lotNo === kept.lotNo);
      if (kept && (lot || kept.lotNo === NO_LOT_YET)) return bring(kept.draft, lot ?? undefined);
    }
    const kept: Kept | undefined = lotNo === undefined ? undefined : { lotNo, draft };
    writeStored('sessionStorage', place, kept ? JSON.stringify(kept) : null);
  });
}

/**
 * The moment that a time of day on paper means: the last time the clock on the wall showed it.
 * Reads `14:05`, `1405` and `905`; null for anything else. `nowMs` in milliseconds; the wall is the association's, whose
 * clocks are `aheadMs` ahead of UTC.
 */
export function paperTime(typed: string, nowMs: number, aheadMs: number): string | null {
  const [, hours = '', minutes = ''] = /^(\d{1,2}):?(\d\d)$/.exec(typed.trim()) ?? [];
  const [hour, minute] = [Number.parseInt(hours, 10), Number.parseInt(minutes, 10)];
  if (!(hour <= 23 && minute <= 59)) return null;
  const now = nowMs + aheadMs;
  const wall = now - (now % DAY_MS) + (hour * 60 + minute) * 60_000;
  return new Date(wall - (wall > now ? DAY_MS : 0) - aheadMs).toISOString();
}

const DAY_MS = 86_400_000;

/** `14:05` of a moment, as `paperTime` reads it. */
export const clockTimeOf = (at: string, aheadMs: number): string =>
  new Date(Date.parse(at) + aheadMs).toISOString().substring(11, 16);

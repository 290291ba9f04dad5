'use client';

import { useEffect, useRef } from 'react';
import { keepIn, keptIn } from '#app/ui/browser-keeps.ts';
import type { BlockLot } from '#db/queries/block-view.ts';
import type { Draft } from './typing.ts';

/** In the place of a lot number, for what was typed while no lot was up. */
export const NO_LOT_YET = '';

interface Typing {
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
export function useKeptDraft(
  { saleId, lotNo, draft, ahead }: Typing,
  bring: (draft: Draft, lot: BlockLot | undefined) => void,
): void {
  const place = `peltry-block-${saleId}`;
  const first = useRef(true);
  useEffect(() => {
    if (first.current) {
      first.current = false;
      const kept = JSON.parse(keptIn('sessionStorage', place) ?? 'null') as Kept | null;
      const lot = kept && ahead.find((one) => one.lotNo === kept.lotNo);
      if (kept && (lot || kept.lotNo === NO_LOT_YET)) return bring(kept.draft, lot ?? undefined);
    }
    const kept: Kept | undefined = lotNo === undefined ? undefined : { lotNo, draft };
    keepIn('sessionStorage', place, kept ? JSON.stringify(kept) : null);
  });
}

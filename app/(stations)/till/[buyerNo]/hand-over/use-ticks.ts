'use client';

import { useState } from 'react';
import type { HandOverLot } from '#db/queries/hand-over-view.ts';
import { readLot } from '#lib/lot-ticket.ts';

/** Which lots are ticked, by hand or by their tickets, and what the last ticket said. */
export function useTicks(saleId: number, lots: readonly HandOverLot[]) {
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [said, setSaid] = useState<{ readonly done?: string; readonly error?: string }>({});
  const tick = (lotNo: string, on: boolean) => {
    const next = new Set(ticked);
    if (on) next.add(lotNo);
    else next.delete(lotNo);
    setTicked(next);
    setSaid({});
  };
  /** Ticks the lot of a ticket; gives whether it was one of these. */
  const scan = (text: string): boolean => {
    const read = readLot(text.trim(), saleId);
    const lot = read.ok ? lots.find(({ lotNo }) => lotNo === read.value) : undefined;
    if (!read.ok) setSaid({ error: read.message });
    else if (!lot) setSaid({ error: `Lot ${read.value} is not among these lots: leave it on the table.` });
    else if (ticked.has(lot.lotNo)) setSaid({ error: `Lot ${lot.lotNo} is ticked already.` });
    else {
      tick(lot.lotNo, true);
      setSaid({ done: `Lot ${lot.lotNo} ticked: ${lot.goods}, ${lot.quantity}.` });
      return true;
    }
    return false;
  };
  const clear = () => {
    setTicked(new Set());
    setSaid({});
  };
  // A lot that went over another counter meanwhile is no longer in the list.
  const chosen = lots.filter(({ lotNo }) => ticked.has(lotNo)).map(({ lotNo }) => lotNo);
  return { chosen, tick, scan, said, clear, setTicked };
}

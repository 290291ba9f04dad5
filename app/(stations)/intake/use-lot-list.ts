'use client';

import { useRef, useState } from 'react';
import { ask } from '#app/ui/ask.ts';
import { useGive } from '#app/ui/use-give.ts';
import type { LotListView } from '#db/queries/lot-list-view.ts';
import { readListFile } from './read-list-file.ts';

/** The list as it was looked at: what is taken in is what was seen. */
interface Seen {
  readonly text: string;
  readonly keepNumbers: boolean;
  readonly view: LotListView;
}

/** A list being looked through: its text, what was seen of it, and what became of it. */
export function useLotList(saleId: number, sellerNo: number) {
  const [text, setText] = useState('');
  const [keepNumbers, setKeepNumbers] = useState(false);
  const [seen, setSeen] = useState<Seen>();
  const [trouble, setTrouble] = useState('');
  const [taken, setTaken] = useState('');
  const { give, busy, refusal, clear } = useGive('intake');
  const newest = useRef<object>(undefined);

  /** An answer to an older text never takes the place of a newer one. */
  const look = async (now: string, keep: boolean) => {
    const asked = { saleId, sellerNo, text: now, keepNumbers: keep };
    newest.current = asked;
    const view = await ask<LotListView>('/api/views/lot-list', 'intake', asked);
    if (newest.current !== asked) return;
    setTrouble(view.ok ? '' : view.message);
    setSeen(view.ok ? { text: now, keepNumbers: keep, view } : undefined);
  };
  const type = (now: string) => {
    setText(now);
    setTaken('');
    clear();
  };
  const put = (now: string) => {
    type(now);
    void look(now, keepNumbers);
  };
  const choose = async (file: File | undefined) => {
    if (!file) return;
    const read = await readListFile(file);
    if (read.ok) put(read.value);
    else setTrouble(read.message);
  };
  const takeIn = async ({ view }: Seen) => {
    if (busy) return;
    const rows = view.rows.map(({ cells }) => cells);
    const label = `${rows.length} lots of seller ${sellerNo}`;
    const reply = await give('lots.add', { saleId, sellerNo, keepNumbers, rows }, label);
    if (!reply.ok) return look(text, keepNumbers);
    const { lots } = reply.value;
    setTaken(lots.length === 1 ? `Lot ${lots[0]} is in.` : `${lots.length} lots are in: ${lots[0]} to ${lots.at(-1)}.`);
    setText('');
    setSeen(undefined);
  };
  // While a row is mended what was wrong stays to be read; taken in is only what was looked through as it is now.
  const current = seen?.text === text && seen.keepNumbers === keepNumbers ? seen : undefined;
  const ready = current && current.view.lots.length > 0 ? current : undefined;
  const keep = (keepThem: boolean) => {
    setKeepNumbers(keepThem);
    if (text.trim() !== '') void look(text, keepThem);
  };
  return {
    ...{ text, type, put, choose, keepNumbers, keep, view: seen?.view, ready, takeIn, taken },
    look: () => void look(text, keepNumbers),
    trouble: trouble || (saysWhy(seen?.view) ? '' : (refusal?.message ?? '')),
  };
}

/** Whether the rows themselves say why they cannot be taken in; if not, the refusal has to be said by itself. */
function saysWhy(view: LotListView | undefined): boolean {
  return view !== undefined && (view.refused !== '' || view.problems.length > 0);
}

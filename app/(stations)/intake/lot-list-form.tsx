'use client';

import { useRef, useState } from 'react';
import { CheckField, TextArea } from '#app/ui/field.tsx';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ask } from '#app/ui/requests.ts';
import { useGive } from '#app/ui/use-give.ts';
import type { LotListView } from '#db/lot/list.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { ListPreview } from './list-preview.tsx';

/** Lots from a spreadsheet or from a list made at home: looked through first, then taken in whole or not at all. */
export function LotListForm({ saleId, sellerNo }: { readonly saleId: number; readonly sellerNo: number }) {
  const list = useLotList(saleId, sellerNo);
  const { ready } = list;
  const pasting = useRef(false);
  return (
    <section className="sheet">
      <details className="more">
        <summary>A list: rows from a spreadsheet, or the member’s own file</summary>
        <form
          className="list-form"
          aria-label="A list of lots"
          onSubmit={(event) => {
            event.preventDefault();
            list.look();
          }}
        >
          {list.taken && <Notice kind="done" title={list.taken} />}
          {list.trouble && <Notice kind="stop" title={list.trouble} />}
          <TextArea
            wide
            label="Rows from a spreadsheet"
            hint="Paste them here. The columns of lots.csv and behind them the export tags (000101-000118), with their heading or in that order; the list may begin with the goods."
            rows={6}
            value={list.text}
            onPaste={() => {
              pasting.current = true;
            }}
            onText={(text) => {
              if (pasting.current) list.put(text);
              else list.type(text);
              pasting.current = false;
            }}
          />
          <div className="field">
            <label htmlFor="list-file">Or the member’s own list</label>
            <input
              id="list-file"
              type="file"
              accept=".csv,.tsv,.txt,text/csv"
              onChange={(event) => {
                void list.choose(event.target.files?.[0]);
                // The same file can be chosen again once it was mended.
                event.target.value = '';
              }}
            />
          </div>
          <CheckField label="Keep the lot numbers of the list" checked={list.keepNumbers} onTick={list.keep} />
          {list.view && <ListPreview view={list.view} keepNumbers={list.keepNumbers} />}
          <div className="acts">
            {ready ? (
              <Act
                words={ready.view.lots.length === 1 ? 'Take in 1 lot' : `Take in ${ready.view.lots.length} lots`}
                act={() => list.takeIn(ready)}
                main
              />
            ) : (
              <button type="submit">Look through the rows</button>
            )}
          </div>
        </form>
      </details>
    </section>
  );
}

/** The list as it was looked at: what is taken in is what was seen. */
interface Seen {
  readonly text: string;
  readonly keepNumbers: boolean;
  readonly view: LotListView;
}

/** A list being looked through: its text, what was seen of it, and what became of it. */
function useLotList(saleId: number, sellerNo: number) {
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

const LARGEST_BYTES = 400_000;

/** UTF-8 with or without its mark; a spreadsheet's own file, or another encoding, is refused with what to do. */
async function readListFile(file: File): Promise<Result<string>> {
  if (file.size > LARGEST_BYTES) return refuse('too_large', `${file.name} is too large for one list: divide it.`);
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    if (!text.includes('\0')) return accept(text);
  } catch {
    // What is no UTF-8 is told in the same words as a file that is no text.
  }
  return refuse('malformed', `${file.name} is no list in plain text: save it as CSV in UTF-8 and choose it again.`);
}

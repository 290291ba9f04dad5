'use client';

import { useRef } from 'react';
import { CheckField, TextArea } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ListPreview } from './list-preview.tsx';
import { useLotList } from './use-lot-list.ts';

interface LotListFormProps {
  readonly saleId: number;
  readonly sellerNo: number;
}

/** Lots from a spreadsheet or from a list made at home: looked through first, then taken in whole or not at all. */
export function LotListForm({ saleId, sellerNo }: LotListFormProps) {
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
            onChange={(event) => {
              if (pasting.current) list.put(event.target.value);
              else list.type(event.target.value);
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
          <CheckField
            label="Keep the lot numbers of the list"
            checked={list.keepNumbers}
            onChange={(event) => list.keep(event.target.checked)}
          />
          {list.view && <ListPreview view={list.view} keepNumbers={list.keepNumbers} />}
          <div className="acts">
            {ready ? (
              <button type="button" className="act" onClick={() => void list.takeIn(ready)}>
                {ready.view.lots.length === 1 ? 'Take in 1 lot' : `Take in ${ready.view.lots.length} lots`}
              </button>
            ) : (
              <button type="submit">Look through the rows</button>
            )}
          </div>
        </form>
      </details>
    </section>
  );
}

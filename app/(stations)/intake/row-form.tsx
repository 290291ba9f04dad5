'use client';

import { type FormEvent, type KeyboardEvent, useState } from 'react';
import { Question } from '#app/(stations)/block/question.tsx';
import { Act, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { GoodsChoice } from '#db/sale/goods.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { byOf, carriedFrom, EMPTY_ROW, type IntakeRow, isBegun, repeated } from './row.ts';
import { RowFields } from './row-fields.tsx';
import { rowFieldOf, useRow } from './use-row.ts';

interface RowFormProps {
  readonly saleId: number;
  readonly sellerNo: number;
  readonly choices: readonly GoodsChoice[];
  /** The newest lot of this seller, for repeating it after a reload too. */
  readonly newest: IntakeRow | undefined;
}

interface Taken {
  readonly lotNo: string;
  readonly what: string;
  readonly holds: readonly string[];
}

/** Lots one after another, by keyboard: Enter goes through what a row needs and saves it behind the last field. */
export function RowForm({ saleId, sellerNo, choices, newest }: RowFormProps) {
  const typing = useRow(EMPTY_ROW, choices, (now) => void save(now));
  const { row, goods, question, elsewhere } = typing;
  const { give } = useGive('intake');
  const [last, setLast] = useState(newest);
  const [taken, setTaken] = useState<Taken>();
  const [sentBack, setSentBack] = useState<readonly Returned[]>([]);

  const save = async (now: IntakeRow) => {
    const kind = typing.goodsOf(now);
    const said = typing.inputOf(now);
    if (!said) return;
    const what = `${kind?.name ?? 'Lot'}, ${now.count || now.weight}`;
    // The next row can be typed at once: what the book says of this one is heard meanwhile.
    const fresh = carriedFrom(now);
    setLast(now);
    typing.goTo('goods', fresh);
    const reply = await give('lot.add', { saleId, sellerNo, ...said }, what);
    if (reply.ok) return setTaken({ ...reply.value, what });
    if (typing.present.current === fresh) return typing.goTo(rowFieldOf(reply), now, reply);
    setSentBack((rows) => [...rows, { row: now, refusal: reply, what }]);
  };
  /** The row before once more, in one key; what is typed already is not given up for it, and tags are never repeated. */
  const again = (before: IntakeRow) => {
    const now = typing.present.current;
    if (isBegun(now)) return typing.goTo('goods', now, BEGUN);
    if (typing.goodsOf(before)?.exportTag) return typing.goTo('tags', repeated(before));
    void save(repeated(before));
  };
  const press = (event: KeyboardEvent) => {
    if (event.key === 'F2' && last) {
      event.preventDefault();
      if (event.shiftKey) typing.goTo('count', repeated(last));
      else again(last);
    } else if (event.key === 'Enter' && event.ctrlKey) {
      event.preventDefault();
      void save(typing.present.current);
    } else if (event.key === 'Escape' && question) typing.takeBack();
  };
  return (
    <form
      className="row-form"
      aria-label="The next lot"
      onKeyDown={press}
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        void save(row);
      }}
    >
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <RowFields {...typing} choices={choices} before={last && typing.goodsOf(last)} autoFocus />
      {question && <Question message={question.message} />}
      <p className="brought" aria-live="polite">
        {goods && (goods.brought[byOf(row, goods)] || `${goods.name}: not sold at the last sale.`)}
      </p>
      {goods && row.form !== 'put_up' && goods.caution && <Notice kind="wait" title={goods.caution} />}
      <SubmitActs label="Save the lot" main>
        <span className="small soft">
          Enter goes on. F2 takes in the line before again; Shift+F2 puts it here to be changed. Ctrl+Enter saves at
          once.
        </span>
      </SubmitActs>
      <TakenNow taken={taken} />
      {sentBack.map((one) => (
        <SentBack
          key={`${one.what}-${sentBack.indexOf(one)}`}
          one={one}
          onPutBack={() => {
            setSentBack(sentBack.filter((other) => other !== one));
            typing.goTo(rowFieldOf(one.refusal), one.row, one.refusal);
          }}
        />
      ))}
    </form>
  );
}

const BEGUN = refuse('conflict', 'This line is begun: save it or clear it, then repeat the line before.', 'goods');

interface Returned {
  readonly row: IntakeRow;
  readonly refusal: Refusal;
  readonly what: string;
}

/** A row that was refused while the next one was being typed: it waits, whole, until it is put back. */
function SentBack({ one, onPutBack }: { readonly one: Returned; readonly onPutBack: () => void }) {
  return (
    <Notice kind="stop" title={`${one.what} was not taken. ${one.refusal.message}`}>
      <Act words="Put it back into the form" act={onPutBack} />
    </Notice>
  );
}

function TakenNow({ taken }: { readonly taken: Taken | undefined }) {
  return (
    <div role="status">
      {taken && (
        <div className="notice" data-kind={taken.holds.length > 0 ? 'wait' : 'done'}>
          <p>
            <strong>
              Lot {taken.lotNo} {taken.holds.length > 0 ? 'is on hold' : 'is in'}: {taken.what}
            </strong>
          </p>
          {taken.holds.map((hold) => (
            <p key={hold}>{hold}</p>
          ))}
        </div>
      )}
    </div>
  );
}

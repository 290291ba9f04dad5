'use client';

import { useState } from 'react';
import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, fieldsOver, Options, SubmitActs } from '#app/ui/form.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { emptyTyped, hintOf } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { BYS } from '#lib/lot/fields.ts';
import type { By } from '#lib/sale/facts.ts';
import { STARTING_GOODS } from '#lib/sale/goods.ts';
import { GOODS_FIELDS, GOODS_QUESTIONS, type GoodsAsTyped } from '#lib/sale/goods-fields.ts';

const BY_WORDS: Readonly<Record<By, string>> = {
  piece: 'by the piece, times the count',
  lot: 'by the lot',
  lb: 'by the pound',
  oz: 'by the ounce',
};

interface GoodsFieldsProps {
  readonly goods: GoodsAsTyped;
  readonly change: (goods: GoodsAsTyped) => void;
  readonly errorOf: (field: string) => string | undefined;
  /** True for goods that the book does not have yet: only then is their short name asked. */
  readonly isNew?: boolean;
}

/** What is asked of one kind of goods. */
export function GoodsFields({ goods, change, errorOf, isNew = false }: GoodsFieldsProps) {
  const field = fieldsOver(goods, (over) => change({ ...goods, ...over }), errorOf);
  return (
    <div className="fields">
      {GOODS_QUESTIONS.map((name) => {
        const { label } = GOODS_FIELDS[name];
        const hint = hintOf(GOODS_FIELDS[name]);
        if (name === 'goods' && !isNew) return null;
        if (name === 'by') {
          return (
            <ChoiceField key={name} {...{ label, hint, ...field('by') }}>
              <Options of={BYS.map((by) => [by, BY_WORDS[by]])} />
            </ChoiceField>
          );
        }
        if (name === 'exportTag') {
          const error = errorOf(name);
          return (
            <div key={name} className="field">
              {error && <span className="field-error">{error}</span>}
              <CheckField
                label={label}
                checked={goods.exportTag}
                onTick={(exportTag) => change({ ...goods, exportTag })}
              />
            </div>
          );
        }
        return (
          <TextField
            key={name}
            inputMode={name === 'seasonLimit' ? 'numeric' : undefined}
            {...{ label, hint, ...field(name) }}
          />
        );
      })}
    </div>
  );
}

export const NO_GOODS: GoodsAsTyped = { ...emptyTyped(GOODS_FIELDS), by: 'piece' };

/** The starting list, with no sizes, grades, codes or limits: those are the association's own. */
export const START_GOODS: readonly GoodsAsTyped[] = STARTING_GOODS.map((kind) => ({ ...NO_GOODS, ...kind }));

/** The input of the goods' commands. A limit that is no whole number goes as it was typed, for the book to refuse. */
export function goodsInputOf({ seasonLimit, sizes, grades, ...rest }: GoodsAsTyped) {
  return {
    ...rest,
    seasonLimit: seasonLimit === '' ? null : wholeNumber(seasonLimit),
    sizes: listOf(sizes),
    grades: listOf(grades),
  };
}

function listOf(typed: string): string[] {
  const read = KIND.wordList.read(typed);
  return read.ok ? read.value : [];
}

interface OneGoodsProps {
  readonly saleId: number;
  readonly asksWhy: boolean;
  /** True where the sale is closed and nothing is changed any more. */
  readonly stands: boolean;
  /** Goods that the sale takes already; without them, further ones are added. */
  readonly start?: GoodsAsTyped;
}

/** One kind of goods in the association's own words, to be changed or added. */
export function OneGoods({ saleId, asksWhy, stands, start }: OneGoodsProps) {
  const [goods, setGoods] = useState(start ?? NO_GOODS);
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('office');
  const isNew = start === undefined;
  const save = () => give(isNew ? 'goods.add' : 'goods.amend', { saleId, ...goodsInputOf(goods), reason }, goods.name);
  return (
    <details>
      <summary>{start ? `${start.name}${start.exportTag ? ' (export tag)' : ''}` : 'Other goods'}</summary>
      <Form aria-label={start?.name ?? 'Other goods'} onEntered={save} wrong={refusal?.message}>
        <fieldset disabled={stands}>
          <legend className="visually-hidden">{start?.name ?? 'Other goods'}</legend>
          <GoodsFields goods={goods} change={setGoods} errorOf={errorOf} isNew={isNew} />
          {asksWhy && !stands && (
            <TextField label="Why is it changed?" error={errorOf('reason')} value={reason} onText={setReason} />
          )}
          {!stands && <SubmitActs label={isNew ? 'Add these goods' : 'Save these goods'} main disabled={busy} />}
        </fieldset>
      </Form>
    </details>
  );
}

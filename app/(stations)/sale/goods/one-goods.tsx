'use client';

import { useState } from 'react';
import { GoodsFields, goodsInputOf, NO_GOODS } from '#app/(stations)/sale/goods-fields.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { GoodsAsTyped } from '#lib/sale/goods-fields.ts';

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

'use client';

import { type FormEvent, useState } from 'react';
import { ChoiceField } from '#app/ui/choice-field.tsx';
import { RUNNING_ORDERS, type RunningOrder } from '#lib/running-order.ts';
import type { BlockGround } from '../use-block.ts';

const WORDS: Readonly<Record<RunningOrder, string>> = {
  lot: 'by lot number',
  seller: 'by seller number',
  goods: 'by kind of goods',
  hand: 'by hand, as it stands now',
};

/** How the lots come up. Nothing moves until the choice is confirmed. */
export function OrderChoice({ view, tell }: Pick<BlockGround, 'view' | 'tell'>) {
  const [chosen, setChosen] = useState(view.order);
  const use = (event: FormEvent) => {
    event.preventDefault();
    tell({ command: 'sale.order', input: { saleId: view.saleId, order: chosen }, label: 'The running order' });
  };
  return (
    <form onSubmit={use} className="acts order-choice">
      <ChoiceField
        label="Lots come up"
        hint="A new order puts skipped lots back in their place."
        value={chosen}
        onChange={(event) => setChosen(event.target.value as RunningOrder)}
      >
        {RUNNING_ORDERS.map((order) => (
          <option key={order} value={order}>
            {WORDS[order]}
          </option>
        ))}
      </ChoiceField>
      <button type="submit" disabled={chosen === view.order && chosen !== 'hand'}>
        Use this order
      </button>
    </form>
  );
}

'use client';

/** All that is fetched behind the Block's first code: what a key opens, what is said of refused entries, what stands below. */
import { type FormEvent, type ReactNode, useState } from 'react';
import { Fact } from '#app/(stations)/block/lot-up.tsx';
import type { LastRow } from '#app/(stations)/block/model.ts';
import type { BlockContext, Opened } from '#app/(stations)/block/use-block.ts';
import { ChoiceField } from '#app/ui/choice-field.tsx';
import type { Glance } from '#db/outcome/called.ts';
import { RUNNING_ORDERS, type RunningOrder } from '#lib/lot/running-order.ts';
import type { BoxContext } from './box.tsx';
import { LotByNumber } from './by-number.tsx';
import { ChoiceOfLots } from './choice.tsx';
import { Divide } from './divide.tsx';
import { PutRight } from './put-right.tsx';
import { UnderBid } from './under-bid.tsx';

export { Rejected } from './rejected.tsx';

interface OpenedBoxProps extends BoxContext {
  readonly opened: Opened;
  readonly putRight: (row?: LastRow) => void;
}

/** The box that was opened, in the place of price and buyer. */
export function OpenedBox({ opened, context, close, putRight }: OpenedBoxProps) {
  switch (opened.kind) {
    case 'right': {
      const { row, rejected } = opened;
      const now = context.model.last.find(({ lotId }) => lotId === row.lotId) ?? row;
      return (
        <PutRight key={`${row.lotId} ${rejected?.key}`} row={now} {...{ rejected, context, close, open: putRight }} />
      );
    }
    case 'number':
      return <LotByNumber scanned={opened.scanned} {...{ context, close, putRight }} />;
    case 'choice':
      return <ChoiceOfLots rejected={opened.rejected} {...{ context, close }} />;
    case 'divide':
      return <Divide lot={opened.lot} {...{ context, close }} />;
    case 'under':
      return <UnderBid {...{ context, close }} />;
  }
}

interface BelowProps extends Pick<BlockContext, 'view' | 'submit'> {
  readonly papers: ReactNode;
}

/** What is for the quiet minute: the running order, the papers, the afternoon at a glance. */
export function Below({ view, submit, papers }: BelowProps) {
  return (
    <>
      <section aria-labelledby="order-and-papers">
        <h2 id="order-and-papers">Order and papers</h2>
        {view.stage !== 'closed' && <OrderChoice {...{ view, submit }} />}
        {papers}
      </section>
      <Afternoon glance={view.glance} />
    </>
  );
}

const WORDS: Readonly<Record<RunningOrder, string>> = {
  lot: 'by lot number',
  seller: 'by seller number',
  goods: 'by kind of goods',
  hand: 'by hand, as it stands now',
};

/** How the lots come up. Nothing moves until the choice is confirmed. */
function OrderChoice({ view, submit }: Pick<BlockContext, 'view' | 'submit'>) {
  const [chosen, setChosen] = useState(view.order);
  const use = (event: FormEvent) => {
    event.preventDefault();
    submit({ command: 'sale.order', input: { saleId: view.saleId, order: chosen }, label: 'The running order' });
  };
  return (
    <form onSubmit={use} className="acts order-choice">
      <ChoiceField
        label="Lots come up"
        hint="A new order puts skipped lots back in their place."
        value={chosen}
        onPick={(value) => setChosen(value as RunningOrder)}
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

/** The afternoon at a glance. The total can be hidden, because the hall may look over the clerk's shoulder. */
function Afternoon({ glance }: { readonly glance: Glance }) {
  const [hidden, setHidden] = useState(true);
  const { sold, passed, withdrawn, bought_back: boughtBack, unpaid, left, pace, total } = glance;
  return (
    <section aria-labelledby="afternoon">
      <h2 id="afternoon">The afternoon</h2>
      <dl className="lot-up-facts">
        <Fact name="Sold">{sold}</Fact>
        <Fact name="No-sale">{passed}</Fact>
        {withdrawn > 0 && <Fact name="Withdrawn">{withdrawn}</Fact>}
        {boughtBack > 0 && <Fact name="Bought back">{boughtBack}</Fact>}
        {unpaid > 0 && <Fact name="Not paid for">{unpaid}</Fact>}
        <Fact name="Left">{left}</Fact>
        {pace && <Fact name="Lots an hour">{pace.lotsAnHour}</Fact>}
        {pace && left > 0 && <Fact name="Done at about">{`${pace.doneAt}, in ${minutesWords(pace.minutesLeft)}`}</Fact>}
        <Fact name="Total">
          {hidden ? 'hidden' : total}{' '}
          <button type="button" className="small" aria-pressed={!hidden} onClick={() => setHidden(!hidden)}>
            {hidden ? 'Show' : 'Hide'} the total
          </button>
        </Fact>
      </dl>
    </section>
  );
}

function minutesWords(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  return hours > 0 ? `${hours} h ${minutes % 60} min` : `${minutes} min`;
}

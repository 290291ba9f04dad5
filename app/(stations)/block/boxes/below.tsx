import type { ReactNode } from 'react';
import type { BlockGround } from '../use-block.ts';
import { Afternoon } from './afternoon.tsx';
import { OrderChoice } from './order-choice.tsx';

interface BelowProps extends Pick<BlockGround, 'view' | 'tell'> {
  readonly papers: ReactNode;
}

/** What is for the quiet minute: the running order, the papers, the afternoon at a glance. */
export function Below({ view, tell, papers }: BelowProps) {
  return (
    <>
      <section aria-labelledby="order-and-papers">
        <h2 id="order-and-papers">Order and papers</h2>
        {view.stage !== 'closed' && <OrderChoice {...{ view, tell }} />}
        {papers}
      </section>
      <Afternoon glance={view.glance} />
    </>
  );
}

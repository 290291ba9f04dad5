import type { ReactNode } from 'react';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { SaleRow } from '#db/queries/find.ts';
import './payout.css';
import { type Way, Ways } from './ways.tsx';

interface PayoutFrameProps {
  readonly association: string;
  readonly sale: SaleRow | undefined;
  readonly here: Way | null;
  /** What stands on the page once there is a sale. */
  readonly children?: ReactNode;
}

/** What every page of payout stands in; without a sale it says so. */
export function PayoutFrame({ association, sale, here, children }: PayoutFrameProps) {
  return (
    <>
      <Masthead association={association} sale={sale} here="/payout" />
      <Live />
      <main id="main" className="page">
        {sale ? (
          <>
            <Ways saleId={sale.id} here={here} />
            {children}
          </>
        ) : (
          <Notice kind="plain" title="There is no sale yet: plan one on the Sale page first." />
        )}
      </main>
    </>
  );
}

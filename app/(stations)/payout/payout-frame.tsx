import './payout.css';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { SaleRow } from '#db/book/find.ts';

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

const WAYS = [
  { path: '/payout', name: 'Settlements' },
  { path: '/payout/checks', name: 'Checks' },
  { path: '/payout/balance', name: 'Balance' },
  { path: '/payout/kept', name: 'What we keep' },
  { path: '/payout/after', name: 'Afterwards' },
] as const;

type Way = (typeof WAYS)[number]['path'];

/** The rooms of payout, in the order in which the evening goes through them. */
function Ways({ saleId, here }: { readonly saleId: number; readonly here: Way | null }) {
  return (
    <nav aria-label="Payout" className="no-print">
      <ul className="stations">
        {WAYS.map(({ path, name }) => (
          <li key={path}>
            <Link href={`${path}?sale=${saleId}`} aria-current={path === here ? 'page' : undefined}>
              {name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}

import './payout.css';
import type { ReactNode } from 'react';
import {
  NoSaleNotice,
  type SaleContext,
  StationFrame,
  type StationFrameProps,
} from '#app/(stations)/station-frame.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import type { Station } from '#db/book/command.ts';

/** In the order in which the evening goes through them. */
const PAGES = [
  { path: '/payout', name: 'Settlements' },
  { path: '/payout/checks', name: 'Checks' },
  { path: '/payout/bank', name: 'Bank', guide: 'bank' },
  { path: '/payout/balance', name: 'Balance' },
  { path: '/payout/kept', name: 'What we keep' },
  { path: '/payout/after', name: 'Afterwards' },
  { path: '/payout/year', name: 'Year', guide: 'year' },
] as const;

type PayoutFrameProps = Pick<StationFrameProps, 'association' | 'sale' | 'here' | 'children'>;

/** The frame of every page of payout; without a sale it says so. */
export function PayoutFrame({ children, ...rest }: PayoutFrameProps) {
  return (
    <StationFrame {...rest} station="/payout" name="Payout" pages={rest.sale ? PAGES : []} ofSale live>
      {rest.sale ? children : <NoSaleNotice />}
    </StationFrame>
  );
}

/** A page of payout that shows something of the sale that its address names; other stations may be let in too. */
export function payoutPage(
  here: (typeof PAGES)[number]['path'],
  show: (context: SaleContext) => ReactNode,
  stations: readonly Station[] = ['payout'],
) {
  return async ({ searchParams }: { readonly searchParams: SearchParams }) => {
    const { sale, ...context } = await stationContext(searchParams, stations);
    return (
      <PayoutFrame association={context.association} sale={sale} here={here}>
        {sale && show({ ...context, sale })}
      </PayoutFrame>
    );
  };
}

import type { ReactNode } from 'react';
import type { SaleRow } from '#db/queries/find.ts';
import { StationFrame } from '../station-frame.tsx';
import './sale.css';

const PAGES = [
  { path: '/', name: 'The day' },
  { path: '/sale/terms', name: 'Terms' },
  { path: '/sale/goods', name: 'Goods' },
  { path: '/sale/next', name: 'Next sale' },
  { path: '/sale/association', name: 'Association' },
] as const;

interface SaleFrameProps {
  readonly association: string;
  readonly sale: SaleRow;
  readonly here: (typeof PAGES)[number]['path'];
  readonly live?: boolean;
  readonly children: ReactNode;
}

/** What every page about the sale itself stands in. */
export function SaleFrame({ children, ...rest }: SaleFrameProps) {
  return (
    <StationFrame {...rest} station="/" name="Sale" pages={PAGES} ofSale>
      {children}
    </StationFrame>
  );
}

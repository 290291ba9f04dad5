import type { Metadata } from 'next';
import { type Address, stationGround } from '#app/station.ts';
import { termsView } from '#db/queries/terms-view.ts';
import { NoSale } from '../no-sale.tsx';
import { SaleFrame } from '../sale-frame.tsx';
import { NextSale } from './next-sale.tsx';

export const metadata: Metadata = { title: 'Next sale' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['office']);
  if (!sale) return <NoSale association={association} />;
  return (
    <SaleFrame association={association} sale={sale} here="/sale/next">
      <NextSale likeSaleId={sale.id} like={sale} goods={termsView(book, sale).goods.length} />
    </SaleFrame>
  );
}

import type { Metadata } from 'next';
import { NoSale, SaleFrame } from '#app/(stations)/sale/sale-frame.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { termsView } from '#db/sale/views.ts';
import { NextSale } from './next-sale.tsx';

export const metadata: Metadata = { title: 'Next sale' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['office']);
  if (!sale) return <NoSale association={association} />;
  return (
    <SaleFrame association={association} sale={sale} here="/sale/next">
      <NextSale likeSaleId={sale.id} like={sale} goods={termsView(book, sale).goods.length} />
    </SaleFrame>
  );
}

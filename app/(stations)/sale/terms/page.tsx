import type { Metadata } from 'next';
import { NoSale, SaleFrame } from '#app/(stations)/sale/sale-frame.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { termsView } from '#db/sale/views.ts';
import { AmendTerms } from './amend-terms.tsx';

export const metadata: Metadata = { title: 'Terms' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['office']);
  if (!sale) return <NoSale association={association} />;
  return (
    <SaleFrame association={association} sale={sale} here="/sale/terms">
      <AmendTerms key={sale.line} saleId={sale.id} stage={sale.stage} view={termsView(book, sale)} />
    </SaleFrame>
  );
}

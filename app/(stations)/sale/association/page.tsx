import type { Metadata } from 'next';
import { AssociationForm } from '#app/(stations)/sale/association-form.tsx';
import { NoSale, SaleFrame } from '#app/(stations)/sale/sale-frame.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { theAssociation } from '#db/sale/queries.ts';

export const metadata: Metadata = { title: 'Association' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['office']);
  const row = theAssociation(book);
  if (!sale || !row) return <NoSale association={association} />;
  const { id: _id, line, ...said } = row;
  const start = { ...said, paper: said.paper === 'a4' ? 'a4' : 'letter', timeZone: said.timeZone || null } as const;
  return (
    <SaleFrame association={association} sale={sale} here="/sale/association">
      <section className="sheet">
        <h1>Whose book it is</h1>
        <p>Papers that were issued keep the name and address they were issued with.</p>
        <AssociationForm key={line} start={start} act="Save" />
      </section>
    </SaleFrame>
  );
}

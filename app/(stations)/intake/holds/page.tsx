import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { PrintLink } from '#app/ui/print-link.tsx';
import { goodsChoices } from '#db/queries/goods-choices.ts';
import { lotsOnHold } from '#db/queries/intake-lots.ts';
import { LotList } from '../lot-list.tsx';
import '../intake.css';

export const metadata: Metadata = { title: 'Lots on hold' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['intake']);
  if (!sale) notFound();
  const lots = lotsOnHold(book, sale.id);
  return (
    <>
      <Masthead association={association} sale={sale} here="/intake" />
      <Live />
      <main id="main" className="page">
        <section className="sheet">
          <h1>Lots on hold</h1>
          <p>
            These lots are numbered and on the shelf, and are not put up until their export tags are right. The tags and
            licences are the agency’s to judge.
          </p>
          {lots.length === 0 && <p>No lot is on hold.</p>}
          <LotList
            saleId={sale.id}
            withSeller
            lots={lots}
            goods={goodsChoices(book, sale)}
            caption={`${lots.length} on hold`}
          />
          <div className="acts">
            <Link className="button" href={`/intake?sale=${sale.id}`}>
              Back to the check-in
            </Link>
            <PrintLink href={`/api/papers/tag-list?sale=${sale.id}`}>Print the tag list for the officer</PrintLink>
          </div>
        </section>
      </main>
    </>
  );
}

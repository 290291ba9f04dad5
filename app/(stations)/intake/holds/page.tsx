import '#app/(stations)/intake/intake.css';
import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { SellerLotList } from '#app/(stations)/intake/lot-list.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Live } from '#app/ui/live.tsx';
import { Pages } from '#app/ui/pages.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { intakeLotsById, lotsHeld } from '#db/lot/queries.ts';
import { goodsChoices } from '#db/sale/goods.ts';
import { pageOf } from '#lib/result/search.ts';

export const metadata: Metadata = { title: 'Lots on hold' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale, word } = await stationContext(searchParams, ['intake']);
  if (!sale) notFound();
  const held = pageOf(lotsHeld(book, sale), word('page'));
  return (
    <StationPage {...{ association, sale }} here="/intake">
      <Live />
      <section className="sheet">
        <h1>Lots on hold</h1>
        <p>
          These lots are numbered and on the shelf, and are not put up until their export tags are right. The tags and
          licences are the agency’s to judge.
        </p>
        {held.all === 0 && <p>No lot is on hold.</p>}
        <SellerLotList
          saleId={sale.id}
          withSeller
          lots={intakeLotsById(book, held.rows)}
          goods={goodsChoices(book, sale)}
          caption={`${held.all} on hold`}
        />
        <Pages of={held} name="Lots on hold" href={(page) => `/intake/holds?sale=${sale.id}&page=${page}`} />
        <div className="acts">
          <Link className="button" href={`/intake?sale=${sale.id}`}>
            Back to the check-in
          </Link>
          <PrintLink href={`/api/papers/tag-list?sale=${sale.id}`}>Print the tag list for the officer</PrintLink>
        </div>
      </section>
    </StationPage>
  );
}

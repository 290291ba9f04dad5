import '#app/(stations)/intake/intake.css';
import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { LotChanges } from '#app/(stations)/intake/lot-changes.tsx';
import { SellerLotList } from '#app/(stations)/intake/lot-list.tsx';
import { MendTag } from '#app/(stations)/mend-tag.tsx';
import { type PageProps, StationPage } from '#app/(stations)/station-page.tsx';
import { stationContext } from '#app/request/page-context.ts';
import { Live } from '#app/ui/live.tsx';
import type { SaleRow } from '#db/book/find.ts';
import { goneLot } from '#db/lot/former.ts';
import { intakeLotByNumber } from '#db/lot/queries.ts';
import { goodsChoices } from '#db/sale/goods.ts';
import type { GoneLot } from '#lib/lot/former.ts';
import { parseLotNo } from '#lib/lot/number.ts';

export async function generateMetadata({ params }: PageProps<'no'>): Promise<Metadata> {
  return { title: `Lot ${(await params).no}` };
}

export default async function Page({ params, searchParams }: PageProps<'no'>) {
  const { book, association, sale } = await stationContext(searchParams, ['intake']);
  const read = parseLotNo((await params).no);
  const lot = sale && read.ok ? intakeLotByNumber(book, sale.id, read.value) : undefined;
  const gone = sale && read.ok && !lot ? goneLot(book, sale.id, read.value) : undefined;
  if (sale && gone) return <Gone {...{ association, sale, gone }} />;
  if (!sale || !lot) notFound();
  const goods = goodsChoices(book, sale);
  return (
    <StationPage {...{ association, sale }} here="/intake">
      <Live />
      <section className="sheet">
        <h1>Lot {lot.lotNo}</h1>
        <SellerLotList
          saleId={sale.id}
          withSeller
          lots={[lot]}
          goods={goods}
          caption={`Lot ${lot.lotNo} as it stands`}
        />
        <div className="acts">
          <Link className="button" href={`/intake/seller/${lot.sellerNo}?sale=${sale.id}`}>
            Back to seller {lot.sellerNo}
          </Link>
          <Link className="button" href={`/intake/tickets?sale=${sale.id}&lot=${lot.lotNo}`}>
            Print its ticket
          </Link>
        </div>
        <MendTag station="intake" saleId={sale.id} lots={[{ lotNo: lot.lotNo, tagList: lot.mendable }]} />
      </section>
      {lot.state !== 'called' && <LotChanges key={lot.lotNo} lot={lot} choices={goods} saleId={sale.id} />}
    </StationPage>
  );
}

/** The number of a lot that was divided or joined, as on an old ticket: what became of it. */
function Gone({ association, sale, gone }: { association: string; sale: SaleRow; gone: GoneLot }) {
  return (
    <StationPage {...{ association, sale }} here="/intake">
      <section className="sheet">
        <h1>{gone.message}</h1>
        <div className="acts">
          {gone.lots.map((lotNo) => (
            <Link key={lotNo} className="button" href={`/intake/lot/${lotNo}?sale=${sale.id}`}>
              Lot {lotNo}
            </Link>
          ))}
        </div>
      </section>
    </StationPage>
  );
}

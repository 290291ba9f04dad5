import '#app/(stations)/intake/intake.css';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { LotListForm } from '#app/(stations)/intake/lot-list-form.tsx';
import { toRow } from '#app/(stations)/intake/row.ts';
import { RowForm } from '#app/(stations)/intake/row-form.tsx';
import { SellerHead, SellerLots } from '#app/(stations)/intake/seller-head.tsx';
import { tableRules } from '#app/(stations)/intake/standings.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Live } from '#app/ui/live.tsx';
import { sellerView } from '#db/seller/queries.ts';

interface Props {
  readonly params: Promise<{ no: string }>;
  readonly searchParams: SearchParams;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Seller ${(await params).no}` };
}

export default async function Page({ params, searchParams }: Props) {
  const { book, association, sale } = await stationContext(searchParams, ['intake']);
  const { no } = await params;
  const seller = sale && /^\d{1,5}$/.test(no) ? sellerView(book, sale, Number.parseInt(no, 10)) : undefined;
  if (!sale || !seller) notFound();
  const newest = seller.lots.at(-1);
  return (
    <StationPage {...{ association, sale }} here="/intake">
      <Live />
      <section className="sheet">
        <SellerHead seller={seller} table={tableRules(sale)} />
        <RowForm
          key={seller.sellerId}
          saleId={sale.id}
          sellerNo={seller.sellerNo}
          choices={seller.goods}
          newest={newest && toRow(newest.typed, newest.goodsName)}
        />
      </section>
      <SellerLots seller={seller} saleId={sale.id} />
      <LotListForm saleId={sale.id} sellerNo={seller.sellerNo} />
    </StationPage>
  );
}

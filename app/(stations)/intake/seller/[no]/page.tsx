import Link from 'next/link';
import { SellerLotList } from '#app/(stations)/intake/lot-list.tsx';
import { PartnerActs } from '#app/(stations)/intake/partner-acts.tsx';
import { PrintLink, Unbroken } from '#app/ui/text.tsx';
import '#app/(stations)/intake/intake.css';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { LotListForm } from '#app/(stations)/intake/lot-list-form.tsx';
import { toRow } from '#app/(stations)/intake/row.ts';
import { RowForm } from '#app/(stations)/intake/row-form.tsx';
import { Standings, type TableRules, tableRules } from '#app/(stations)/intake/standings.tsx';
import { type PageProps, StationPage } from '#app/(stations)/station-page.tsx';
import { stationContext } from '#app/request/page-context.ts';
import { Live } from '#app/ui/live.tsx';
import { type SellerView, sellerView } from '#db/seller/queries.ts';

export async function generateMetadata({ params }: PageProps<'no'>): Promise<Metadata> {
  return { title: `Seller ${(await params).no}` };
}

export default async function Page({ params, searchParams }: PageProps<'no'>) {
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

/** Who stands behind the number, how they stand with the association, and on what terms the number sells. */
function SellerHead({ seller, table }: { readonly seller: SellerView; readonly table: TableRules }) {
  const { sellerNo, partners, broughtBy, sellsAs, dues } = seller;
  return (
    <header className="seller-head">
      <h1>
        <span className="figure-large">{sellerNo}</span> {partners.map(({ name }) => name).join(' and ')}
      </h1>
      {partners.map((partner) => (
        <div key={partner.personId}>
          <p className="soft">
            {partners.length > 1 && `${partner.name}, ${partner.parts} ${partner.parts === 1 ? 'part' : 'parts'}. `}
            <Unbroken>{[partner.place, partner.phone].filter(Boolean).join(' · ')}</Unbroken>
          </p>
          <Standings membership={partner.membership} licence={partner.licence} />
          <PartnerActs
            {...{ table, sellerNo, partner }}
            dues={dues.filter(({ personId }) => personId === partner.personId)}
          />
        </div>
      ))}
      {broughtBy && <p>Brought by {broughtBy}</p>}
      <p>This number sells at the {sellsAs === 'member' ? 'members’' : 'guests’'} rates.</p>
    </header>
  );
}

/** What this seller number has brought so far, and the way to the next person in the queue. */
function SellerLots({ seller, saleId }: { readonly seller: SellerView; readonly saleId: number }) {
  const { lots, goods, sellerNo } = seller;
  return (
    <section className="sheet">
      <h2>Lots of seller {sellerNo}</h2>
      <SellerLotList
        {...{ saleId, lots, goods }}
        caption={lots.length === 1 ? '1 lot so far' : `${lots.length} lots so far`}
      />
      <div className="acts">
        <Link className="button" href={`/intake?sale=${saleId}`}>
          Next person
        </Link>
        {lots.length > 0 && (
          <Link className="button" href={`/intake/tickets?sale=${saleId}&seller=${sellerNo}`}>
            Print tickets
          </Link>
        )}
        <PrintLink href={`/api/papers/receipt?sale=${saleId}&seller=${sellerNo}`}>Print the receipt</PrintLink>
      </div>
    </section>
  );
}

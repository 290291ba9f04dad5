import Link from 'next/link';
import { PrintLink, Unbroken } from '#app/ui/text.tsx';
import type { SellerView } from '#db/seller/queries.ts';
import { SellerLotList } from './lot-list.tsx';
import { PartnerActs } from './partner-acts.tsx';
import { Standings, type TableRules } from './standings.tsx';

/** Who stands behind the number, how they stand with the association, and on what terms the number sells. */
export function SellerHead({ seller, table }: { readonly seller: SellerView; readonly table: TableRules }) {
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
export function SellerLots({ seller, saleId }: { readonly seller: SellerView; readonly saleId: number }) {
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

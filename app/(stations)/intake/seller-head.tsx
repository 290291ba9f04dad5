import type { SellerView } from '#db/queries/intake-view.ts';
import { Standings } from './standings.tsx';

/** Who stands behind the number, how they stand with the association, and on what terms the number sells. */
export function SellerHead({ seller }: { readonly seller: SellerView }) {
  const { sellerNo, partners, broughtBy, sellsAs } = seller;
  return (
    <header className="seller-head">
      <h1>
        <span className="figure-large">{sellerNo}</span> {partners.map(({ name }) => name).join(' and ')}
      </h1>
      {partners.map((partner) => (
        <div key={partner.personId}>
          <p className="soft">
            {partners.length > 1 && `${partner.name}, ${partner.parts} parts. `}
            {[partner.place, partner.phone].filter(Boolean).join(' · ')}
          </p>
          <Standings membership={partner.membership} licence={partner.licence} />
        </div>
      ))}
      {broughtBy && <p>Brought by {broughtBy}</p>}
      <p>This number sells at the {sellsAs === 'member' ? 'members’' : 'guests’'} rates.</p>
    </header>
  );
}

import { Unbroken } from '#app/ui/unbroken.tsx';
import type { SellerView } from '#db/queries/intake-view.ts';
import { PartnerActs } from './partner-acts.tsx';
import { Standings } from './standings.tsx';
import type { TableRules } from './table-rules.ts';

interface SellerHeadProps {
  readonly seller: SellerView;
  readonly table: TableRules;
}

/** Who stands behind the number, how they stand with the association, and on what terms the number sells. */
export function SellerHead({ seller, table }: SellerHeadProps) {
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

import Link from 'next/link';
import { PrintLink } from '#app/ui/print-link.tsx';
import type { SellerView } from '#db/queries/intake-view.ts';
import { LotList } from './lot-list.tsx';

interface SellerLotsProps {
  readonly seller: SellerView;
  readonly saleId: number;
}

/** What this seller number has brought so far, and the way to the next person in the queue. */
export function SellerLots({ seller, saleId }: SellerLotsProps) {
  const { lots, goods, sellerNo } = seller;
  return (
    <section className="sheet">
      <h2>Lots of seller {sellerNo}</h2>
      <LotList
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

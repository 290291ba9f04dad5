import Link from 'next/link';
import type { Arrival } from '#db/queries/intake-view.ts';

interface ArrivalsProps {
  readonly arrivals: readonly Arrival[];
  readonly saleId: number;
}

/** Who came to the table last, at any of the tables. */
export function Arrivals({ arrivals, saleId }: ArrivalsProps) {
  if (arrivals.length === 0) return <p className="soft">Nobody yet.</p>;
  return (
    <ol className="arrivals">
      {arrivals.map(({ sellerNo, names, lots }) => (
        <li key={sellerNo}>
          <Link href={`/intake/seller/${sellerNo}?sale=${saleId}`} prefetch={false}>
            <span className="arrival-no">{sellerNo}</span> {names}
          </Link>
          <span className="soft figure">{lots === 1 ? '1 lot' : `${lots} lots`}</span>
        </li>
      ))}
    </ol>
  );
}

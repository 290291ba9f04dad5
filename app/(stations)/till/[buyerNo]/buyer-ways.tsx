import Link from 'next/link';

const WAYS = [
  { to: '', words: 'Account' },
  { to: '/invoice', words: 'Invoice' },
  { to: '/hand-over', words: 'Hand over' },
  { to: '/record', words: 'Purchase record' },
  { to: '/details', words: 'Details' },
] as const;

interface BuyerWaysProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly here: (typeof WAYS)[number]['to'];
}

/** The way between the pages of one buyer, and back to all of them. */
export function BuyerWays({ saleId, buyerNo, here }: BuyerWaysProps) {
  return (
    <nav aria-label={`Buyer ${buyerNo}`} className="buyer-ways no-print">
      <Link href={`/till?sale=${saleId}`}>All buyers</Link>
      {WAYS.map(({ to, words }) => (
        <Link
          key={to}
          href={`/till/${buyerNo}${to}?sale=${saleId}`}
          prefetch={false}
          aria-current={to === here ? 'page' : undefined}
        >
          {words}
        </Link>
      ))}
    </nav>
  );
}

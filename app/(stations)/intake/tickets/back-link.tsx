import Link from 'next/link';

interface BackLinkProps {
  readonly saleId: number;
  readonly seller: string;
  readonly lot: string;
}

/** The way back to where the tickets were asked for. */
export function BackLink({ saleId, seller, lot }: BackLinkProps) {
  const [path, words] =
    lot !== ''
      ? [`/intake/lot/${encodeURIComponent(lot)}`, 'Back to the lot']
      : seller !== ''
        ? [`/intake/seller/${encodeURIComponent(seller)}`, 'Back to the seller']
        : ['/intake', 'Back to the check-in'];
  return (
    <Link className="button" href={`${path}?sale=${saleId}`}>
      {words}
    </Link>
  );
}

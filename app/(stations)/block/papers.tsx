import Link from 'next/link';
import { PrintLink } from '#app/ui/print-link.tsx';

/** Left bids, and the Block's papers: the running order for the hall, and the sheets for the hour when the power fails. */
export function BlockPapers({ saleId }: { readonly saleId: number }) {
  return (
    <div className="acts">
      <Link className="button" href={`/block/left?sale=${saleId}`}>
        Enter left bids
      </Link>
      <PrintLink href={`/api/papers/sale-list?sale=${saleId}`}>Print the sale list</PrintLink>
      <PrintLink href={`/api/papers/block-sheet?sale=${saleId}`}>Print block sheets for a power failure</PrintLink>
    </div>
  );
}

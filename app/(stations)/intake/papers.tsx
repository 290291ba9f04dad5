import Link from 'next/link';
import { PrintLink } from '#app/ui/print-link.tsx';

/** The papers of the whole sale that the check-in table and the officer's table need. */
export function IntakePapers({ saleId, lots }: { readonly saleId: number; readonly lots: number }) {
  if (lots === 0) return null;
  return (
    <section aria-labelledby="papers">
      <h2 id="papers">On paper</h2>
      <div className="acts">
        <Link className="button" href={`/intake/tickets?sale=${saleId}`}>
          Tickets of all lots
        </Link>
        <PrintLink href={`/api/papers/sale-list?sale=${saleId}`}>Sale list</PrintLink>
        <PrintLink href={`/api/papers/tag-list?sale=${saleId}`}>Tag list for the officer</PrintLink>
      </div>
    </section>
  );
}

import { PrintLink } from '#app/ui/print-link.tsx';
import type { WrittenView } from '#db/queries/written-view.ts';

/** Bid sheets while lots are open, results once lots were awarded. */
export function WrittenPapers({ view }: { readonly view: Pick<WrittenView, 'saleId' | 'lots' | 'awarded'> }) {
  const { saleId, lots, awarded } = view;
  return (
    <div className="acts">
      {lots.length > 0 && (
        <>
          <PrintLink href={`/api/papers/bid-sheets?sale=${saleId}`}>Print a bid sheet for each buyer</PrintLink>
          <PrintLink href={`/api/papers/bid-sheets?sale=${saleId}&buyer=blank`}>Print a blank bid sheet</PrintLink>
        </>
      )}
      {awarded && <PrintLink href={`/api/papers/results?sale=${saleId}`}>Print the results for the wall</PrintLink>}
    </div>
  );
}

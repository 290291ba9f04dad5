import { Notice } from '#app/ui/notice.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { PHASE_WORDS } from '#lib/outcome/written.ts';

/** Left bids, and the Block's papers: the running order for the hall, and the sheets for the hour when the power fails. */
export function BlockPapers({ saleId }: { readonly saleId: number }) {
  return (
    <div className="acts">
      <a className="button" href={`/block/left?sale=${saleId}`}>
        Enter left bids
      </a>
      <PrintLink href={`/api/papers/sale-list?sale=${saleId}`}>Print the sale list</PrintLink>
      <PrintLink href={`/api/papers/block-sheet?sale=${saleId}`}>Print block sheets for a power failure</PrintLink>
    </div>
  );
}

/** The way to the bid sheets, where a sale goes by them. */
export function WrittenBids({ saleId, phase }: Pick<WrittenView, 'saleId' | 'phase'>) {
  return (
    <Notice kind="plain" title={`This sale goes by written bids. Now: ${PHASE_WORDS[phase]}.`}>
      <p>
        <a href={`/block/written?sale=${saleId}`}>Enter the bid sheets, close the bids and award the lots</a>
      </p>
    </Notice>
  );
}

/** From the Block's other pages back to the lot that is up. */
export function BackToBlock({ saleId }: { readonly saleId: number }) {
  return (
    <p className="acts">
      <a className="button" href={`/block?sale=${saleId}`}>
        Back to the Block
      </a>
    </p>
  );
}

/** Bid sheets while lots are open, results once lots were awarded. */
export function WrittenPapers({ view }: { readonly view: Pick<WrittenView, 'saleId' | 'lots' | 'phase'> }) {
  const { saleId, lots, phase } = view;
  const awarded = phase !== 'taking' && phase !== 'closed';
  return (
    <div className="acts">
      {lots.length > 0 && (
        <>
          <PrintLink href={`/api/papers/bid-sheets?sale=${saleId}`}>Print a bid sheet for each buyer</PrintLink>
          <PrintLink href={`/api/papers/bid-sheets?sale=${saleId}&buyer=blank`}>Print a blank bid sheet</PrintLink>
        </>
      )}
      {awarded && (
        <>
          <PrintLink href={`/api/papers/results?sale=${saleId}`}>Print the results for the wall</PrintLink>
          <PrintLink href={`/api/papers/bid-slips?sale=${saleId}`}>Print a results slip for each bidder</PrintLink>
        </>
      )}
    </div>
  );
}

/** Why there is nothing to enter, and where that is chosen or what to use instead. */
export function NoneToEnter({ saleId }: { readonly saleId: number | undefined }) {
  if (saleId === undefined) return <Notice kind="plain" title="There is no sale yet. Plan one on the Sale page." />;
  return (
    <Notice kind="plain" title="This sale is called: there are no written bids to enter.">
      <p>
        Bids of buyers who cannot stay are <a href={`/block/left?sale=${saleId}`}>left bids</a>. Whether a sale is
        called or goes by written bids stands in its <a href={`/sale/terms?sale=${saleId}`}>terms</a>.
      </p>
    </Notice>
  );
}

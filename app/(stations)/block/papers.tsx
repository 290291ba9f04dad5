import { Notice } from '#app/ui/notice.tsx';
import { PrintLink } from '#app/ui/print-link.tsx';

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
export function WrittenBids({ saleId }: { readonly saleId: number }) {
  return (
    <Notice kind="plain" title="This sale goes by written bids.">
      <p>
        <a href={`/block/written?sale=${saleId}`}>Enter the bid sheets, close the bids and award the lots</a>
      </p>
    </Notice>
  );
}

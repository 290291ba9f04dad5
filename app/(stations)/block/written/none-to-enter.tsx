import { Notice } from '#app/ui/notice.tsx';

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

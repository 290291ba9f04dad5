import type { BlockLot } from '#db/queries/block-view.ts';

/** What comes next, so that the ring man has it in his hands in time. */
export function NextFive({ lots }: { readonly lots: readonly BlockLot[] }) {
  return (
    <section className="below" aria-labelledby="next-five">
      <h2 id="next-five">Next</h2>
      {lots.length === 0 && <p className="soft">No lot is left behind this one.</p>}
      <ol className="next-five">
        {lots.map((lot) => (
          <li key={lot.lotId}>
            <strong>Lot {lot.lotNo}</strong> {lot.quantity} {lot.goodsName}
            <span className="soft small">
              Seller {lot.sellerNo}
              {lot.scene.holds.length > 0 && ', on hold'}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}

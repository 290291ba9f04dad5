'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { LeftView } from '#db/queries/bids.ts';

/** Whose bids lie on which lots. Their prices show at the Block when the lot is up, and nowhere before. */
export function LeftList({ view: { bids } }: { readonly view: LeftView }) {
  const { give, busy, refusal } = useGive('block');
  if (bids.length === 0) return <p>No bid is left on a lot that is still to be called.</p>;
  return (
    <div className="scroll-x">
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <table>
        <caption>On lots still to be called</caption>
        <thead>
          <tr>
            <th scope="col">Lot</th>
            <th scope="col">Goods</th>
            <th scope="col">Buyer</th>
            <th scope="col">
              <span className="visually-hidden">What to do</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {bids.map(({ bidId, lotNo, goodsName, buyerNo }) => (
            <tr key={bidId}>
              <th scope="row">{lotNo}</th>
              <td>{goodsName}</td>
              <td>{buyerNo}</td>
              <td className="figure">
                <button
                  type="button"
                  disabled={busy}
                  onClick={() => void give('bid.retract', { bidId }, `Left bid on lot ${lotNo} taken back`)}
                >
                  Take back
                  <span className="visually-hidden">
                    {' '}
                    the bid of buyer {buyerNo} on lot {lotNo}
                  </span>
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

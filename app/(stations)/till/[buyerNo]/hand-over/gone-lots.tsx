import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/mark.tsx';
import type { GoneLot } from '#db/queries/hand-over-view.ts';
import { TakeBack } from './take-back.tsx';

/** The lots that were handed over, with who took them and when; one that comes back is taken back under them. */
export function GoneLots({ saleId, lots }: { readonly saleId: number; readonly lots: readonly GoneLot[] }) {
  if (lots.length === 0) return <p>Nothing yet.</p>;
  return (
    <>
      <ul className="payments">
        {lots.map(({ lotNo, goods, quantity, takenBy, at, worker, wentTo, waiting }) => (
          <li key={lotNo}>
            <strong>Lot {lotNo}</strong>, {goods}, {quantity}
            <div className="small">
              taken by {takenBy}, <LocalTime at={at} />, given out by {worker}
            </div>
            {waiting > 0 && (
              <Mark tone="wait">
                {waiting === 1 ? '1 tag broken' : `${waiting} tags broken`}: not exportable until replaced
              </Mark>
            )}
            {wentTo !== null && <Mark tone="stop">went to buyer {wentTo}: fetch it, and take it back here</Mark>}
          </li>
        ))}
      </ul>
      <TakeBack saleId={saleId} lotNos={lots.map(({ lotNo }) => lotNo)} />
    </>
  );
}

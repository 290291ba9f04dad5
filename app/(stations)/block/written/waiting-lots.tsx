import { LocalMoment } from '#app/ui/local-moment.tsx';
import type { WrittenView } from '#db/queries/written-view.ts';
import type { Decision } from './late-answer.tsx';

interface WaitingLotsProps {
  readonly view: WrittenView;
  readonly busy: boolean;
  readonly decide: (decision: Decision) => void;
}

/** Lots whose best bid is below the minimum: the seller accepts it or keeps the lot. */
export function WaitingLots({ view, busy, decide }: WaitingLotsProps) {
  const accept = ({ lotNo, price, buyerNo }: WrittenView['waiting'][number]): Decision => ({
    ...({ lotNo, kind: 'sold', price: price.replaceAll(',', ''), buyerNo } as const),
    answered: ['below_minimum', 'off_step', 'price_unusual'],
  });
  return (
    <section className="sheet" aria-labelledby="waiting-lots">
      <h2 id="waiting-lots">Waiting for their sellers</h2>
      {view.answerBy && view.waiting.length > 0 && (
        <p>
          Each seller accepts or keeps until{' '}
          <strong>
            <LocalMoment at={view.answerBy} />
          </strong>
          . A lot without an answer by then is kept.
        </p>
      )}
      {view.waiting.map((lot) => {
        const { lotNo, sellerNo, goodsName, minimum, price, buyerNo } = lot;
        return (
          <div key={lotNo} className="acts">
            <p>
              <strong>Lot {lotNo}</strong> {goodsName}, seller {sellerNo}: best bid {price} of buyer {buyerNo}, minimum{' '}
              {minimum}.
            </p>
            <button type="button" disabled={busy} onClick={() => decide(accept(lot))}>
              Seller accepts<span className="visually-hidden"> the bid on lot {lotNo}</span>
            </button>
            <button type="button" disabled={busy} onClick={() => decide({ lotNo, kind: 'passed' })}>
              Seller keeps<span className="visually-hidden"> lot {lotNo}</span>
            </button>
          </div>
        );
      })}
      {view.noBid.map((lotNo) => (
        <div key={lotNo} className="acts">
          <p>
            <strong>Lot {lotNo}</strong> has no bid.
          </p>
          <button type="button" disabled={busy} onClick={() => decide({ lotNo, kind: 'passed' })}>
            No-sale<span className="visually-hidden"> of lot {lotNo}</span>
          </button>
        </div>
      ))}
      {view.onHold.length > 0 && <p>On hold until their tags are right: lot {view.onHold.join(', ')}.</p>}
      {view.waiting.length + view.noBid.length + view.onHold.length === 0 && <p>No lot waits.</p>}
    </section>
  );
}

'use client';

import { useState } from 'react';
import { WrittenPapers } from '#app/(stations)/block/links.tsx';
import { Act } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads } from '#app/ui/text.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useView } from '#app/ui/use-view.ts';
import type { InputOf, ValueOf } from '#db/commands.ts';
import type { CalledLot } from '#db/outcome/called.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { showMoney } from '#lib/money/money.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { BidGrid } from './bid-grid.tsx';
import { CloseBids, ClosingTime, useIsPast } from './closing-time.tsx';

/** The grid of bids by buyer, closing them in one act, and the lots that wait for their sellers. */
export function Written({ first }: { readonly first: WrittenView }) {
  const { view } = useView(first, `/api/views/written?sale=${first.saleId}`);
  const { give, busy, refusal, clear } = useGive('block');
  const [said, setSaid] = useState('');
  const [late, setLate] = useState<Decision>();
  const isPast = useIsPast(view.closesAt);
  const over = view.closedAt !== null || isPast;
  const close = async () => {
    const reply = await give('bids.award', { saleId: view.saleId }, 'Closing the bids');
    setSaid(reply.ok ? awardedWords(reply.value) : '');
  };
  const decide = async ({ lotNo, ...outcome }: Decision) => {
    const input = { saleId: view.saleId, lotNo, ...outcome };
    const reply = await give('outcome.record', input, `Lot ${lotNo}`);
    setLate(!reply.ok && reply.field === 'answer_late' ? { lotNo, ...outcome } : undefined);
  };
  return (
    <>
      {refusal && late && <LateAnswer message={refusal.message} {...{ late, busy, decide }} leave={clear} />}
      {refusal && !late && (
        <Notice kind="stop" title={refusal.message}>
          <Act words="I have read it" act={clear} />
        </Notice>
      )}
      {said && <Notice kind="done" title={said} />}
      <ClosingTime view={view} />
      {view.lots.length > 0 && !view.closedAt && <BidGrid view={view} />}
      {view.lots.length > 0 && !view.closedAt && <CloseBids {...{ view, over, busy, close }} />}
      {view.awarded && over && <WaitingLots {...{ view, busy, decide }} />}
      {view.awarded && <Results called={view.called} />}
      <WrittenPapers view={view} />
    </>
  );
}

function awardedWords({ awarded, belowMinimum, noBid }: ValueOf<'bids.award'>): string {
  return `Awarded: ${awarded}. Below the minimum: ${belowMinimum}. Without a bid: ${noBid}.`;
}

/** The results, to be printed and pinned on the wall. */
function Results({ called }: { readonly called: readonly CalledLot[] }) {
  const rows = [...called].sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  return (
    <section className="sheet">
      <table>
        <caption>Results</caption>
        <ColumnHeads words={['Lot', 'Goods', 'Seller', 'Buyer']} money={['Price', 'Amount']} />
        <tbody>
          {rows.map(({ lotNo, goodsName, sellerNo, buyerNo, kind, priceCents, amountCents }) => (
            <tr key={lotNo}>
              <th scope="row">{lotNo}</th>
              <td>{goodsName}</td>
              <td>{sellerNo}</td>
              <td>{kind === 'sold' ? buyerNo : ''}</td>
              <td className="money">
                {kind !== 'sold' || priceCents === null ? OUTCOME_WORDS[kind] : showMoney(priceCents)}
              </td>
              <td className="money">{kind === 'sold' ? showMoney(amountCents) : ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface Deciding {
  readonly busy: boolean;
  readonly decide: (decision: Decision) => unknown;
}

/** Lots whose best bid is below the minimum: the seller accepts it or keeps the lot. */
function WaitingLots({ view, busy, decide }: Deciding & { readonly view: WrittenView }) {
  const accept = ({ lotNo, price, buyerNo }: WrittenView['waiting'][number]): Decision => ({
    ...({ lotNo, kind: 'sold', price: price.replaceAll(',', ''), buyerNo } as const),
    answered: ['below_minimum', 'off_step', 'price_unusual'],
  });
  const keep = (lotNo: string) => decide({ lotNo, kind: 'passed' });
  return (
    <section className="sheet" aria-labelledby="waiting-lots">
      <h2 id="waiting-lots">Waiting for their sellers</h2>
      {view.answerBy && view.waiting.length > 0 && (
        <p>
          Each seller accepts or keeps until <strong>{view.words.answerBy}</strong>. A lot without an answer by then is
          kept.
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
            <Act
              words="Seller accepts"
              about={`the bid on lot ${lotNo}`}
              act={() => decide(accept(lot))}
              disabled={busy}
            />
            <Act words="Seller keeps" about={`lot ${lotNo}`} act={() => keep(lotNo)} disabled={busy} />
          </div>
        );
      })}
      {view.noBid.map((lotNo) => (
        <div key={lotNo} className="acts">
          <p>
            <strong>Lot {lotNo}</strong> has no bid.
          </p>
          <Act words="No-sale" about={`of lot ${lotNo}`} act={() => keep(lotNo)} disabled={busy} />
        </div>
      ))}
      {view.onHold.length > 0 && <p>On hold until their tags are right: lot {view.onHold.join(', ')}.</p>}
      {view.waiting.length + view.noBid.length + view.onHold.length === 0 && <p>No lot waits.</p>}
    </section>
  );
}

/** What is said of a lot that waits for its seller. */
type Decision = Omit<InputOf<'outcome.record'>, 'saleId'>;

interface LateAnswerProps extends Deciding {
  /** The question, as the book asks it. */
  readonly message: string;
  readonly late: Decision;
  readonly leave: () => void;
}

/** A seller who accepts after the time that was set: the association lets it count, or the lot is kept. */
function LateAnswer({ message, late, busy, decide, leave }: LateAnswerProps) {
  const { lotNo, answered = [] } = late;
  return (
    <Notice kind="wait" title={`Lot ${lotNo}: ${message}`}>
      <div className="acts">
        <Act
          words="The answer counts"
          act={() => decide({ ...late, answered: [...answered, 'answer_late'] })}
          disabled={busy}
        />
        <Act words={`The seller keeps lot ${lotNo}`} act={() => decide({ lotNo, kind: 'passed' })} disabled={busy} />
        <Act words="Leave it for now" act={leave} />
      </div>
    </Notice>
  );
}

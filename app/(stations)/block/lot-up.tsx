import { Mark } from '#app/ui/marks.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { BlockLot } from '#db/outcome/block-view.ts';
import { showMoney } from '#lib/money/money.ts';
import type { LastRow } from './model.ts';
import { outcomeWords } from './question.tsx';

interface LotUpProps {
  readonly lot: BlockLot;
  /** What somebody else has taken down for this lot while it was in hand here. */
  readonly gone: LastRow | undefined;
}

/** The lot that is up, large enough to be read while looking at the auctioneer. */
export function LotUp({ lot, gone }: LotUpProps) {
  return (
    <>
      <div className="lot-up">
        <h1 className="lot-up-number">
          <span className="small soft">Lot</span> {lot.lotNo}
        </h1>
        <div>
          <p className="lot-up-goods">
            {lot.quantity && <strong>{lot.quantity}</strong>} {lot.goodsName}
          </p>
          {lot.details && <p>{lot.details}</p>}
          <p className="soft">
            Seller {lot.sellerNo}
            {lot.donated && ', donated'}
            {lot.withoutReserve && ', without reserve'}
          </p>
        </div>
      </div>
      <dl className="lot-up-facts">
        <Fact name="A price stands for">{lot.priceIsFor}</Fact>
        {lot.minimum && <Fact name="Minimum">{lot.minimum}</Fact>}
        {lot.earlier && <Fact name="Earlier prices">{lot.earlier}</Fact>}
        {lot.bids && <Fact name="Left bids">{lot.bids}</Fact>}
      </dl>
      {lot.caution && (
        <p>
          <strong>Caution.</strong> {lot.caution}
        </p>
      )}
      {lot.scene.holds.length > 0 && (
        <Notice kind="stop" title={`Lot ${lot.lotNo} is on hold and cannot be sold.`}>
          {lot.scene.holds.map((hold) => (
            <p key={hold}>{hold}</p>
          ))}
        </Notice>
      )}
      {gone && (
        <Notice kind="stop" title={`Lot ${lot.lotNo} was taken down elsewhere meanwhile.`}>
          <p>
            <Mark tone="done">{outcomeWords(gone)}</Mark> by {gone.worker} at {gone.at}. Press Escape to let go of what
            is typed here, or put the lot right.
          </p>
        </Notice>
      )}
    </>
  );
}

/** A figure with its name, in a list of them. */
export function Fact({ name, children }: { readonly name: string; readonly children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

interface LastTenProps {
  readonly rows: readonly LastRow[];
  readonly putRight: (row: LastRow) => void;
}

/** What was called last, newest first. */
export function LastTen({ rows, putRight }: LastTenProps) {
  return (
    <section aria-labelledby="last-ten">
      <h2 id="last-ten">The last ten</h2>
      {rows.length === 0 && <p className="soft">Nothing was called yet.</p>}
      <ol className="last-ten">
        {rows.map((row) => (
          <li key={row.lotId} data-lot={row.lotNo} data-state={row.state}>
            <strong className="figure">{row.lotNo}</strong>
            <span>
              {outcomeWords(row)}
              {row.corrected && <span className="soft small"> put right: {row.reason}</span>}
            </span>
            <span className="soft small last-ten-state">
              <Mark tone={row.state === 'saved' ? 'done' : 'wait'}>{row.state}</Mark> {row.at} {row.worker}
            </span>
            <span className="money">{row.kind === 'sold' ? showMoney(row.amountCents) : ''}</span>
            <button type="button" className="small" onClick={() => putRight(row)}>
              Put right<span className="visually-hidden"> lot {row.lotNo}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

interface KeyActProps {
  /** The key of the keypad that does the same. */
  readonly sign?: string;
  readonly words: string;
  readonly act: () => void;
}

/** A button that names its key. */
export function KeyAct({ sign, words, act }: KeyActProps) {
  return (
    <button type="button" onClick={act}>
      {sign && <kbd>{sign}</kbd>} {words}
    </button>
  );
}

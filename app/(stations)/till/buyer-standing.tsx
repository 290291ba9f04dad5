import { Mark, type Tone } from '#app/ui/mark.tsx';
import { Unbroken } from '#app/ui/unbroken.tsx';
import type { BuyerHead } from '#db/queries/till-view.ts';
import { showMoney } from '#lib/money.ts';

const LICENCE: Readonly<Record<BuyerHead['licence']['state'], Tone>> = {
  good: 'done',
  undated: 'open',
  missing: 'wait',
  expired: 'stop',
};

/** Whether a buyer may buy, by which licence, and whether they have gone beyond their limit. */
export function BuyerStanding({ buyer }: { readonly buyer: BuyerHead }) {
  const by = buyer.clearedBy === '' ? '' : ` by ${buyer.clearedBy}`;
  return (
    <div className="small buyer-standing">
      <Mark tone={buyer.cleared ? 'done' : 'stop'}>{buyer.cleared ? `cleared${by}` : 'not cleared'}</Mark>
      <Mark tone={LICENCE[buyer.licence.state]}>
        <span>
          <Unbroken>{buyer.licence.words}</Unbroken>
        </span>
      </Mark>
      {buyer.exemptNo !== null && <span>pays no tax, exemption {buyer.exemptNo}</span>}
      {buyer.overLimitCents !== null && <Mark tone="stop">beyond the limit of {showMoney(buyer.overLimitCents)}</Mark>}
    </div>
  );
}

import { ColumnHeads } from '#app/ui/text.tsx';
import type { CalledLot } from '#db/outcome/called.ts';
import type { WrittenView } from '#db/outcome/written-view.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { showMoney } from '#lib/money/money.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { BidActs } from './bid-acts.tsx';

/** The results, to be printed and pinned on the wall. */
export function Results({ called }: { readonly called: readonly CalledLot[] }) {
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

/** How every bid ended: for the clerk, not for the wall. */
export function EndedBids({ ended }: Pick<WrittenView, 'ended'>) {
  if (ended.length === 0) return null;
  return (
    <section className="sheet scroll-x">
      <table>
        <caption>How each bid ended</caption>
        <ColumnHeads words={['Buyer', 'Lot', 'Bid', 'Handed in', 'Ended']} />
        <tbody>
          {ended.map(({ bidId, buyerNo, lotNo, price, handedIn, end }) => (
            <tr key={bidId}>
              <th scope="row">{buyerNo}</th>
              <td>{lotNo}</td>
              <td>{price}</td>
              <td>{handedIn}</td>
              <td>
                {end === '' ? 'still open' : end}
                {end === '' && <BidActs {...{ bidId, lotNo, price }} closed movable={false} />}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

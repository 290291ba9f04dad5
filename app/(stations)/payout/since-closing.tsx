import Link from 'next/link';
import { ListPaperView } from '#app/(stations)/payout/list-paper-view.tsx';
import { WriteOff } from '#app/(stations)/payout/write-off.tsx';
import { today } from '#app/request/page-context.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { paperGround } from '#db/lot/papers.ts';
import { buyersOwingSince, sellersOwedSince, sinceClosing } from '#db/payment/since-closing.ts';
import { formatMoney, negate, showMoney, ZERO } from '#lib/money/money.ts';
import { sinceClosingPaper } from '#lib/payment/since-closing.ts';

interface OfClosed {
  readonly book: Book;
  readonly sale: SaleRow;
}

/** Sellers whose check was lost or stopped after the closing, and whoever's own check came back; nothing for none. */
export function OwedAgain({ book, sale }: OfClosed) {
  const sellers = sellersOwedSince(book, sale);
  const buyers = buyersOwingSince(book, sale);
  if (sellers.length + buyers.length === 0) return null;
  return (
    <section aria-label="Owed again since the closing">
      <h2>Owed again since the closing</h2>
      <ul>
        {sellers.map(({ sellerNo, amountCents }) => (
          <li key={`seller ${sellerNo}`}>
            <Link href={`/payout/${sellerNo}?sale=${sale.id}`}>
              {amountCents > ZERO
                ? `seller ${sellerNo}: ${showMoney(amountCents)} to pay`
                : `seller ${sellerNo} owes ${showMoney(negate(amountCents))}`}
            </Link>
          </li>
        ))}
        {buyers.map(({ buyerNo, amountCents }) => (
          <li key={`buyer ${buyerNo}`}>
            <Link href={`/till/${buyerNo}?sale=${sale.id}`}>
              buyer {buyerNo} owes {showMoney(amountCents)}
            </Link>
            <WriteOff
              {...{ saleId: sale.id, who: { buyerNo }, name: `buyer ${buyerNo}`, amount: formatMoney(amountCents) }}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What happened to the money of a closed sale since: the closing report stays as it was. */
export function SinceClosing({ book, sale }: OfClosed) {
  const entries = sinceClosing(book, sale.id);
  if (entries.length === 0) return null;
  return (
    <section aria-label="Since the closing">
      <h2>Since the closing</h2>
      <p>The closing report stays as it was signed. This is what came after it.</p>
      <ListPaperView list={sinceClosingPaper(paperGround(book, sale, today(book)), entries)} />
      <OwedAgain {...{ book, sale }} />
    </section>
  );
}

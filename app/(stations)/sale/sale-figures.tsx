import Link from 'next/link';
import { Ahead, backupsAhead } from '#app/backups/view.tsx';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { StageMark } from '#app/ui/marks.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { Unbroken } from '#app/ui/text.tsx';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { balanceView } from '#db/report/closing.ts';
import { theAssociation } from '#db/sale/queries.ts';
import { type SaleView, saleView } from '#db/sale/views.ts';
import { hasWorkers } from '#db/worker/queries.ts';
import { shortDate } from '#lib/date/date.ts';

export const cachedSale = cachedRead(saleView, bySale);
const cachedBalance = cachedRead(balanceView, bySale);

/** How far the sale has come: what came in, what became of it, and what it brought. */
export function SaleFigures({ view, currency }: { readonly view: SaleView; readonly currency: string }) {
  return (
    <>
      <p>The hammer has brought</p>
      <p className="figure-large">
        {view.total} <small>{currency}</small>
      </p>
      <table className="sale-figures">
        <caption className="visually-hidden">How far the sale has come</caption>
        <tbody>
          <Line words="Sellers" figures={view.sellers} />
          <Line words="Buyers" figures={view.buyers} />
          <Line words="Lots" figures={view.lots} />
          <Line words="Pieces in them" figures={view.pieces} />
          <Line words="On hold, until their tags are right" figures={view.onHold} />
          <Line words="Sold" figures={view.sold} />
          <Line words="Passed" figures={view.passed} />
          <Line words="Withdrawn" figures={view.withdrawn} />
          {view.bought_back > 0 && <Line words="Bought back" figures={view.bought_back} />}
          {view.unpaid > 0 && <Line words="Not paid for" figures={view.unpaid} />}
          <Line words="Still to be called" figures={view.left} />
        </tbody>
      </table>
    </>
  );
}

function Line({ words, figures }: { readonly words: string; readonly figures: string | number }) {
  return (
    <tr>
      <th scope="row">{words}</th>
      <td className="figure">{figures}</td>
    </tr>
  );
}

/** What is unfinished in a sale that is settling, before the button that closes it. */
export function Unfinished({ book, sale }: { readonly book: Book; readonly sale: SaleRow }) {
  const unfinished = sale.stage === 'settling' ? cachedBalance(book, sale).unfinished : [];
  return unfinished.map(({ name, question, title, ask, later }) => (
    <p key={name}>
      <Link href={`/payout/balance?sale=${sale.id}#${name}`}>{title}</Link>{' '}
      {question ? `${later} You are asked about it before the sale closes.` : ask}
    </p>
  ));
}

/** The other sales of the book, the newest first. */
export function OtherSales({ sales, here }: { readonly sales: readonly SaleRow[]; readonly here: number }) {
  const others = sales.filter(({ id }) => id !== here);
  if (others.length === 0) return null;
  return (
    <section>
      <h2>Other sales in this book</h2>
      <ul className="other-sales">
        {others.map(({ id, name, heldOn, season, stage }) => (
          <li key={id}>
            <Link href={`/?sale=${id}`}>{name}</Link>, <Unbroken>{`${shortDate(heldOn)}, season ${season}`}</Unbroken>{' '}
            <StageMark stage={stage} />
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What is wrong with the book itself or still missing from it, before anything is entered. */
export function ToMind({ book, sale }: { readonly book: Book; readonly sale: SaleRow }) {
  return (
    <>
      <Ahead ahead={backupsAhead(book)} />
      {theAssociation(book)?.timeZone === '' && <NoTimeZone />}
      {sale.stage === 'planned' && !hasWorkers(book) && <FirstWorker />}
    </>
  );
}

/** The last step before the intake opens, while nobody is entered who could sign in. */
function FirstWorker() {
  return (
    <Notice kind="wait" title="Last step: who works here?">
      <p>Until the first worker is entered, whoever reaches this machine may do everything. Then open the intake.</p>
      <p>
        <Link className="button" href="/office/workers">
          Enter the first worker
        </Link>
      </p>
    </Notice>
  );
}

/** For a book from before time zones were kept: until one is said, an evening is dated the next day. */
function NoTimeZone() {
  return (
    <Notice kind="wait" title="The time zone is not set.">
      <p>
        Until it is, the day on every paper is the day in UTC. <Link href="/sale/association">Set the time zone</Link>
      </p>
    </Notice>
  );
}

import type { Metadata } from 'next';
import Link from 'next/link';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { SinceClosing } from '#app/(stations)/payout/since-closing.tsx';
import { WriteOff } from '#app/(stations)/payout/write-off.tsx';
import { TakingSumsTable } from '#app/(stations)/statement-parts.tsx';
import { Moment } from '#app/request/moment.tsx';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { Mark } from '#app/ui/marks.tsx';
import { Pages } from '#app/ui/pages.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { balanceView, closingsOf } from '#db/report/closing.ts';
import { cents, formatMoney } from '#lib/money/money.ts';
import {
  amountWords,
  type ClosingLine,
  isOpenLine,
  type Part,
  sizeWords,
  type Unfinished,
  type Why,
} from '#lib/report/closing-line.ts';
import { pageOf, ROWS_A_PAGE } from '#lib/result/search.ts';
import { countWords } from '#lib/result/text.ts';

export const metadata: Metadata = { title: 'Balance' };

const cachedBalance = cachedRead(balanceView, bySale);

export default payoutPage('/payout/balance', ({ book, sale, word }) => {
  const { lines, open, drawerOpen, unfinished, takings } = cachedBalance(book, sale);
  const closings = closingsOf(book, sale.id);
  return (
    <section className="sheet">
      <h1>Balance</h1>
      <p>
        {open === 0 ? (
          <>
            <Mark tone="done">Every line is at zero</Mark> Both sides of each line below agree.
          </>
        ) : (
          <Mark tone="open">{countWords(open, 'line')} open</Mark>
        )}
        {drawerOpen &&
          ' The drawer is still open, and nobody has counted it against these lines: count and close it at the Till.'}
      </p>
      <div className="balance-lines">
        {lines.map((line) => (
          <BalanceLine
            key={line.name}
            line={line}
            saleId={sale.id}
            debts={sale.stage === 'settling' && line.name === 'buyers'}
            page={word('why') === line.name ? word('page') : null}
          />
        ))}
        {unfinished.map((kind) => (
          <section key={kind.name} className="balance-line" aria-label={kind.title} id={kind.name}>
            <h2>
              {kind.title} <UnfinishedMark kind={kind} closed={sale.stage === 'closed'} />
            </h2>
            <p>{kind.question ? kind.later : kind.ask}</p>
            <PagedReasons line={kind} saleId={sale.id} page={word('why') === kind.name ? word('page') : null} />
          </section>
        ))}
      </div>
      {takings.byKind.length > 0 && (
        <section aria-label="Other takings">
          <h2>Other takings</h2>
          <TakingSumsTable sums={takings} />
          <p>
            <Link href={`/till/takings?sale=${sale.id}`}>Each of them at the Till</Link>
          </p>
        </section>
      )}
      <div className="acts">
        {sale.stage !== 'closed' && (
          <Link className="button" href={`/?sale=${sale.id}`}>
            The Sale page closes the sale
          </Link>
        )}
        <PrintLink href={`/api/papers/payout/balance?sale=${sale.id}`}>Print the balance</PrintLink>
        {closings.some(({ report }) => report) && (
          <PrintLink href={`/api/papers/payout/closing-report?sale=${sale.id}`}>Print the closing report</PrintLink>
        )}
      </div>
      {sale.stage === 'closed' && <SinceClosing {...{ book, sale }} />}
      {closings.map(({ closingId, kind, worker, at, reason }) => (
        <p key={closingId} className="small">
          {kind === 'closed' ? 'Closed' : 'Opened again'} by {worker}, <Moment at={at} />
          {reason && `: ${reason}`}
        </p>
      ))}
    </section>
  );
});

/** What an unfinished thing does to the closing; once the sale is closed, that it is still so. */
function UnfinishedMark({ kind, closed }: { readonly kind: Unfinished; readonly closed: boolean }) {
  if (closed) return <Mark tone="wait">{kind.question ? 'not yet' : 'since the closing'}</Mark>;
  return kind.question ? <Mark tone="wait">asked at the closing</Mark> : <Mark tone="stop">before closing</Mark>;
}

interface ReasonsProps {
  readonly line: ClosingLine | Unfinished;
  readonly saleId: number;
  /** Whether they are debts that can be given up: once the bidding is over. */
  readonly debts?: boolean | undefined;
}

interface PagedProps extends ReasonsProps {
  /** Of the line whose reasons are all listed, the page of them that is asked for; null for the other lines. */
  readonly page: string | null | undefined;
}

/** One line of the balance with both sides, and what explains a difference, linked to where it is put right. */
function BalanceLine({ line, saleId, page, debts }: PagedProps & { readonly line: ClosingLine }) {
  const { title, leftWords, leftParts, left, rightWords, parts, right, difference } = line;
  return (
    <section className="balance-line" aria-label={title} id={line.name}>
      <h2>
        {title}{' '}
        <Mark tone={isOpenLine(line) ? 'stop' : 'done'}>
          {difference !== 0 ? `${sizeWords(line, difference)} off` : isOpenLine(line) ? 'not for each' : 'at zero'}
        </Mark>
      </h2>
      <table>
        <tbody>
          <Side line={line} words={leftWords} parts={leftParts} total={left} />
          <Side line={line} words={rightWords} parts={parts} total={right} />
        </tbody>
      </table>
      <PagedReasons {...{ line, saleId, page, debts }} />
    </section>
  );
}

interface SideProps {
  readonly line: ClosingLine;
  readonly words: string;
  readonly parts: readonly Part[];
  readonly total: number;
}

/** The parts of one side, and under them what they come to. */
function Side({ line, words, parts, total }: SideProps) {
  return (
    <>
      {parts.map(({ label, amount }) => (
        <tr key={label} className="soft">
          <td>{label}</td>
          <td className="money">{amountWords(line, amount)}</td>
        </tr>
      ))}
      <tr>
        <th scope="row">{words}</th>
        <td className="money balance-side">{amountWords(line, total)}</td>
      </tr>
    </>
  );
}

function PagedReasons({ page, ...of }: PagedProps) {
  return page === null ? <FirstReasons {...of} /> : <AllReasons {...of} page={page} />;
}

/** As many as are taken in at a glance; the others open on a press, and where there are very many on a page. */
const SHOWN = 6;

function FirstReasons({ line, saleId, debts }: ReasonsProps) {
  const { why, name } = line;
  const more = why.length - SHOWN;
  return (
    <>
      <Reasons why={why.slice(0, SHOWN)} {...{ line, saleId, debts }} />
      {more > ROWS_A_PAGE && (
        <p>
          <Link href={whyAddress(saleId, name, 1)} prefetch={false}>
            And {more.toLocaleString('en-US')} more
          </Link>
        </p>
      )}
      {more > 0 && more <= ROWS_A_PAGE && (
        <details>
          <summary>And {more} more</summary>
          <Reasons why={why.slice(SHOWN)} {...{ line, saleId, debts }} />
        </details>
      )}
    </>
  );
}

function AllReasons({ line, saleId, page, debts }: PagedProps) {
  const shown = pageOf(line.why, page ?? undefined);
  return (
    <>
      <Reasons why={shown.rows} {...{ line, saleId, debts }} />
      <Pages of={shown} name={line.title} href={(to) => whyAddress(saleId, line.name, to)} />
    </>
  );
}

function whyAddress(saleId: number, name: string, page: number): string {
  return `/payout/balance?sale=${saleId}&why=${name}&page=${page}#${name}`;
}

function Reasons({ why, line, saleId, debts }: ReasonsProps & { readonly why: readonly Why[] }) {
  if (why.length === 0) return null;
  return (
    <ul>
      {why.map((one) => (
        <li key={`${one.kind}-${one.ref}-${one.words}`}>
          <Link href={placeOf(one, saleId)} prefetch={false}>
            {one.words}
          </Link>
          {howMuch(line, one)}
          {debts && one.amount > 0 && (
            <WriteOff
              {...{ saleId, who: { buyerNo: Number.parseInt(one.ref, 10) }, name: `buyer ${one.ref}` }}
              amount={formatMoney(cents(one.amount))}
            />
          )}
        </li>
      ))}
    </ul>
  );
}

/** The part of the difference in brackets, where the words do not say it themselves. */
function howMuch(line: ReasonsProps['line'], { words, amount }: Why): string {
  const said = sizeWords(line, amount);
  return words.includes(said) || (line.unit === 'lots' && amount === 1) ? '' : ` (${said})`;
}

/** Where it is put right. */
function placeOf({ kind, ref }: Why, saleId: number): string {
  if (kind === 'lot') return `/intake/lot/${ref}?sale=${saleId}`;
  if (kind === 'buyer') return `/till/${ref}?sale=${saleId}`;
  return kind === 'seller' ? `/payout/${ref}?sale=${saleId}` : `/till?sale=${saleId}`;
}

import type { Metadata } from 'next';
import Link from 'next/link';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { Pages } from '#app/ui/pages.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { balanceView, closingsOf } from '#db/report/closing.ts';
import {
  amountWords,
  type ClosingLine,
  isOpenLine,
  type Unfinished,
  unfinishedInWords,
  type Why,
} from '#lib/report/closing-line.ts';
import { pageOf, ROWS_A_PAGE } from '#lib/result/search.ts';

export const metadata: Metadata = { title: 'Balance' };

const cachedBalance = cachedRead(balanceView, bySale);

export default payoutPage('/payout/balance', ({ book, sale, word }) => {
  const { lines, open, drawerOpen, unfinished } = cachedBalance(book, sale);
  const closings = closingsOf(book, sale.id);
  return (
    <section className="sheet">
      <h1>Balance</h1>
      <p>
        {open === 0 ? <Mark tone="done">Every line is at zero</Mark> : <Mark tone="open">{open} lines are open</Mark>}
        {drawerOpen && ' The drawer is open: count and close it at the Till.'}
      </p>
      <div className="balance-lines">
        {lines.map((line) => (
          <BalanceLine
            key={line.name}
            line={line}
            saleId={sale.id}
            page={word('why') === line.name ? word('page') : null}
          />
        ))}
      </div>
      {unfinished.length > 0 && (
        <>
          <h2>Unfinished</h2>
          <div className="balance-lines">
            {unfinished.map((kind) => (
              <UnfinishedKind
                key={kind.name}
                kind={kind}
                saleId={sale.id}
                page={word('why') === kind.name ? word('page') : null}
              />
            ))}
          </div>
        </>
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
      {closings.map(({ closingId, kind, worker, at, reason }) => (
        <p key={closingId} className="small">
          {kind === 'closed' ? 'Closed' : 'Opened again'} by {worker}, <LocalTime at={at} />
          {reason && `: ${reason}`}
        </p>
      ))}
    </section>
  );
});

type Reason = Pick<Why, 'kind' | 'ref' | 'words'>;

interface ReasonsProps {
  /** What they are the reasons of, as the address of all of them names it. */
  readonly name: string;
  readonly title: string;
  readonly why: readonly Reason[];
  /** How much each is, in brackets behind its words; empty where the words say it. */
  readonly amounts: ReadonlyMap<Reason, string>;
  readonly saleId: number;
}

interface PagedProps {
  readonly saleId: number;
  /** Where its reasons are all listed, the page of them that is asked for; null for the others. */
  readonly page: string | null | undefined;
}

/** One line of the balance with both sides, and what explains a difference, linked to where it is put right. */
function BalanceLine({ line, saleId, page }: PagedProps & { readonly line: ClosingLine }) {
  const { name, title, why, leftWords, left, rightWords, parts, right, difference } = line;
  return (
    <section className="balance-line" aria-label={title} id={line.name}>
      <h2>
        {title}{' '}
        <Mark tone={isOpenLine(line) ? 'stop' : 'done'}>
          {difference !== 0 ? `${amountWords(line, difference)} off` : why.length > 0 ? 'not for each' : 'at zero'}
        </Mark>
      </h2>
      <table>
        <tbody>
          <tr>
            <th scope="row">{leftWords}</th>
            <td className="money balance-side">{amountWords(line, left)}</td>
          </tr>
          {parts.map(({ label, amount }) => (
            <tr key={label} className="soft">
              <td>{label}</td>
              <td className="money">{amountWords(line, amount)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">{rightWords}</th>
            <td className="money balance-side">{amountWords(line, right)}</td>
          </tr>
        </tbody>
      </table>
      <PagedReasons
        {...{ name, title, why, saleId, page }}
        amounts={new Map(why.map((one) => [one, howMuch(line, one)]))}
      />
    </section>
  );
}

/** One kind of what is unfinished, with whom it is about, linked to where it is done. */
function UnfinishedKind({ kind, saleId, page }: PagedProps & { readonly kind: Unfinished }) {
  const { name, question, sentence, left } = kind;
  const why = left.map((one) => ({ kind: one.kind, ref: String(one.no), words: one.words }));
  return (
    <section className="balance-line" aria-label={sentence} id={name}>
      <p>
        <Mark tone={question ? 'wait' : 'stop'}>{question ? 'asked at the close' : 'keeps the sale open'}</Mark>{' '}
        {question ? sentence : unfinishedInWords(kind)}
      </p>
      <PagedReasons {...{ name, why, saleId, page }} title={sentence} amounts={NO_AMOUNTS} />
    </section>
  );
}

const NO_AMOUNTS: ReadonlyMap<Reason, string> = new Map();

function PagedReasons({ page, ...reasons }: ReasonsProps & PagedProps) {
  return page === null ? <FirstReasons {...reasons} /> : <AllReasons {...reasons} page={page} />;
}

/** As many as are taken in at a glance; the others open on a press, and where there are very many on a page. */
const SHOWN = 6;

function FirstReasons(reasons: ReasonsProps) {
  const { why, name, saleId } = reasons;
  const more = why.length - SHOWN;
  return (
    <>
      <Reasons {...reasons} why={why.slice(0, SHOWN)} />
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
          <Reasons {...reasons} why={why.slice(SHOWN)} />
        </details>
      )}
    </>
  );
}

function AllReasons({ page, ...reasons }: ReasonsProps & PagedProps) {
  const { why, name, title, saleId } = reasons;
  const shown = pageOf(why, page ?? undefined);
  return (
    <>
      <Reasons {...reasons} why={shown.rows} />
      <Pages of={shown} name={title} href={(to) => whyAddress(saleId, name, to)} />
    </>
  );
}

function whyAddress(saleId: number, name: string, page: number): string {
  return `/payout/balance?sale=${saleId}&why=${name}&page=${page}#${name}`;
}

function Reasons({ why, amounts, saleId }: ReasonsProps) {
  if (why.length === 0) return null;
  return (
    <ul>
      {why.map((one) => (
        <li key={`${one.kind}-${one.ref}-${one.words}`}>
          <Link href={placeOf(one, saleId)} prefetch={false}>
            {one.words}
          </Link>
          {amounts.get(one)}
        </li>
      ))}
    </ul>
  );
}

/** The part of the difference in brackets, where the words do not say it themselves. */
function howMuch(line: ClosingLine, { words, amount }: Why): string {
  const said = amountWords(line, amount);
  return words.includes(said) || (line.unit === 'lots' && amount === 1) ? '' : ` (${said})`;
}

/** Where it is put right. */
function placeOf({ kind, ref }: Reason, saleId: number): string {
  if (kind === 'lot') return `/intake/lot/${ref}?sale=${saleId}`;
  if (kind === 'buyer') return `/till/${ref}?sale=${saleId}`;
  return kind === 'seller' ? `/payout/${ref}?sale=${saleId}` : `/till?sale=${saleId}`;
}

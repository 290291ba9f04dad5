import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { MoneyRow } from '#app/(stations)/statement-parts.tsx';
import { TillFrame } from '#app/(stations)/till/till-frame.tsx';
import { Moment } from '#app/request/moment.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Mark, type Tone } from '#app/ui/marks.tsx';
import { type DrawerView, type DrawerViewEntry, type DrawerViewLine, drawerView } from '#db/drawer/queries.ts';
import { METHOD_WORDS } from '#lib/buyer/buyer.ts';
import type { DrawerKind } from '#lib/drawer/drawer.ts';
import { DrawerForm } from './drawer-form.tsx';

export const metadata: Metadata = { title: 'Drawer' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['till']);
  if (!sale) notFound();
  const view = drawerView(book, sale);
  return (
    <TillFrame association={association} sale={sale} live>
      <nav aria-label="Till" className="buyer-ways no-print">
        <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
        <Link href={`/till/drawer?sale=${sale.id}`} aria-current="page">
          The drawer
        </Link>
        <Link href={`/till/takings?sale=${sale.id}`}>Other takings</Link>
      </nav>
      <div className="table-top">
        <section className="sheet">
          <h1>The drawer</h1>
          {sale.stage === 'closed' ? (
            <p>The sale is closed, and so is its drawer.</p>
          ) : (
            <DrawerForm saleId={sale.id} open={view.open} denominations={view.denominations} />
          )}
        </section>
        <Counts view={view} />
        <section className="below">
          <h2>What was done</h2>
          <DrawerEntries entries={view.entries} />
        </section>
      </div>
    </TillFrame>
  );
}

/** What was counted last, and what should lie in the drawer now. */
function Counts({ view: { count, open, now, before } }: { readonly view: DrawerView }) {
  return (
    <aside className="aside">
      <h2>The last count</h2>
      {count ? <Totals lines={count.lines} /> : <p>Not counted yet.</p>}
      {open && (
        <details>
          <summary>What should lie in it now</summary>
          <Totals lines={now} />
        </details>
      )}
      {before !== '' && (
        <p className="small">
          {before} in cash was recorded before the drawer was opened first, and is not reckoned here: put it in as added
          if it lies in the drawer.
        </p>
      )}
    </aside>
  );
}

const TONES: Readonly<Record<'over' | 'short' | 'even', Tone>> = { over: 'wait', short: 'stop', even: 'done' };

/** Each method with what was recorded, what should be there, what was counted, and what is over or short. */
function Totals({ lines }: { readonly lines: readonly DrawerViewLine[] }) {
  return lines.filter(isUsed).map((line) => (
    <table key={line.method} className="reckoning drawer-reckoning">
      <caption>{METHOD_WORDS[line.method]}</caption>
      <tbody>
        {partsOf(line).map(([words, amount]) => (
          <MoneyRow key={words} words={words}>
            {amount}
          </MoneyRow>
        ))}
        {line.difference && (
          <MoneyRow words="Counted less expected">
            <Mark tone={TONES[line.difference.kind]}>{line.difference.words}</Mark>
          </MoneyRow>
        )}
      </tbody>
    </table>
  ));
}

/** Cash always; another method once it was taken or counted. */
function isUsed({ method, in: came, out, taken, expected, counted }: DrawerViewLine): boolean {
  return method === 'cash' || counted !== '' || [came, out, taken, expected].some((amount) => amount !== '0.00');
}

/** The parts that are something, and always what should be there. */
function partsOf(line: DrawerViewLine): (readonly [string, string])[] {
  const parts = [
    ['Float', line.float],
    ['Put in', line.added],
    ['Taken out', line.taken],
    ['Came in', line.in],
    ['Went out', line.out],
  ] as const;
  const counted = line.counted === '' ? [] : [['Counted', line.counted] as const];
  return [...parts.filter(([, amount]) => amount !== '0.00'), ['Should be there', line.expected], ...counted];
}

const DONE: Readonly<Record<DrawerKind, string>> = {
  opened: 'opened with',
  added: 'put in',
  taken: 'taken out',
  counted: 'counted',
  closed: 'closed with',
};

/** Everything that was done with the drawer, the oldest first. */
function DrawerEntries({ entries }: { readonly entries: readonly DrawerViewEntry[] }) {
  if (entries.length === 0) return <p>Nothing yet.</p>;
  return (
    <ul className="payments">
      {entries.map(({ entryId, kind, cash, beside, note, at, worker, newest }) => (
        <li key={entryId}>
          <Moment at={at} /> {worker}: {DONE[kind]} <strong>{cash}</strong> in cash
          {beside.length > 0 && `, ${beside.join(', ')}`}
          {note !== '' && `, ${note}`}
          {newest && (
            <FoldedAsk
              {...{ station: 'till', command: 'drawer.void', input: { entryId }, asks: { label: 'Why it is voided' } }}
              summary="Void this entry"
              entry="Void an entry of the drawer"
              act="Void the entry"
            />
          )}
        </li>
      ))}
    </ul>
  );
}

import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { TakingSumsTable } from '#app/(stations)/statement-parts.tsx';
import { TillFrame } from '#app/(stations)/till/till-frame.tsx';
import { Moment } from '#app/request/moment.tsx';
import { type SearchParams, stationContext, today } from '#app/request/page-context.ts';
import { Mark } from '#app/ui/marks.tsx';
import { type TakingRow, takingsView } from '#db/payment/takings.ts';
import { METHOD_WORDS } from '#lib/buyer/buyer.ts';
import { TAKING_WORDS } from '#lib/payment/taking.ts';
import { TakingForm } from './taking-form.tsx';

export const metadata: Metadata = { title: 'Other takings' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['till']);
  if (!sale) notFound();
  const open = sale.stage !== 'closed';
  const view = takingsView(book, sale.id, today(book));
  const voided = view.today.flatMap(({ takingId, voided: why }) => (why === null ? [] : [takingId]));
  return (
    <TillFrame association={association} sale={sale} live>
      <nav aria-label="Till" className="buyer-ways no-print">
        <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
        <Link href={`/till/drawer?sale=${sale.id}`}>The drawer</Link>
        <Link href={`/till/takings?sale=${sale.id}`} aria-current="page">
          Other takings
        </Link>
      </nav>
      <div className="table-top">
        <section className="sheet">
          <h1>Other takings</h1>
          <p>Money that is nobody’s purchase. It goes into the drawer with the rest.</p>
          {open ? <TakingForm saleId={sale.id} voided={voided} /> : <p>The sale is closed: nothing more is taken.</p>}
        </section>
        <aside className="aside">
          <h2>What came in</h2>
          {view.sums.byKind.length > 0 ? <TakingSumsTable sums={view.sums} /> : <p>Nothing yet.</p>}
          <h2>Dues</h2>
          <p>
            Dues are not entered here: they make a member.{' '}
            <Link href={`/intake?sale=${sale.id}`}>Take dues at Intake</Link>
          </p>
          <p className="small">
            Raffles and gifts may need a permit or a receipt where you are: ask your accountant, and your State’s rules.
          </p>
        </aside>
        <section className="below">
          <h2>Today</h2>
          <Takings rows={view.today} open={open} none="Nothing yet." />
          {view.earlier.length > 0 && (
            <details>
              <summary>Earlier days</summary>
              <Takings rows={view.earlier} open={open} none="" />
            </details>
          )}
        </section>
      </div>
    </TillFrame>
  );
}

interface TakingsProps {
  readonly rows: readonly TakingRow[];
  readonly open: boolean;
  /** What is said where there are none. */
  readonly none: string;
}

/** Each taking, the newest first; a voided one stays to be read. */
function Takings({ rows, open, none }: TakingsProps) {
  if (rows.length === 0) return <p>{none}</p>;
  return (
    <ul className="payments">
      {rows.map(({ takingId, kind, method, amount, note, at, worker, voided }) => (
        <li key={takingId}>
          <span className="payment-amount">{amount}</span> {TAKING_WORDS[kind]}, {METHOD_WORDS[method].toLowerCase()}
          {note && `, ${note}`}, <Moment at={at} /> {worker}
          {voided !== null && (
            <div>
              <Mark tone="stop">voided: {voided}</Mark>
            </div>
          )}
          {voided === null && open && (
            <FoldedAsk
              {...{ station: 'till', command: 'taking.void', input: { takingId }, asks: { label: 'Why it is voided' } }}
              summary={`Void ${amount}`}
              entry={`Void ${amount}`}
              act="Void the taking"
            />
          )}
        </li>
      ))}
    </ul>
  );
}

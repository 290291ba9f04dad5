import 'server-only';
import './till.css';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { StationFrame, type StationFrameProps } from '#app/(stations)/station-frame.tsx';
import type { PageProps } from '#app/(stations)/station-page.tsx';
import { stationContext } from '#app/request/page-context.ts';
import { Mark } from '#app/ui/marks.tsx';
import type { SaleRow } from '#db/book/find.ts';
import { buyerFile } from '#db/buyer/files.ts';
import type { BuyerView } from '#db/buyer/queries.ts';

type TillFrameProps = Omit<StationFrameProps, 'station' | 'name' | 'here'>;

/** The frame of every page of the till. */
export function TillFrame(props: TillFrameProps) {
  return <StationFrame {...props} station="/till" name="Till" />;
}

export type BuyerPageProps = PageProps<'buyerNo'>;

/** The sale and the buyer number of an address; a page that is not there where it names neither. */
export async function buyerAddress({ params, searchParams }: BuyerPageProps) {
  const { book, association, sale } = await stationContext(searchParams, ['till']);
  const { buyerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  return { book, association, sale, buyerNo: Number.parseInt(text, 10), text };
}

/** The same with the file of the buyer; a page that is not there where the sale has no such number. */
export async function buyerContext(props: BuyerPageProps) {
  const context = await buyerAddress(props);
  const file = buyerFile(context.book, context.sale.id, context.buyerNo);
  if (!file) notFound();
  return { ...context, file };
}

const PAGES = [
  { to: '', words: 'Account' },
  { to: '/invoice', words: 'Invoice' },
  { to: '/hand-over', words: 'Hand over' },
  { to: '/record', words: 'Purchase record' },
  { to: '/details', words: 'Details' },
] as const;

interface BuyerFrameProps extends TillFrameProps {
  readonly sale: SaleRow;
  readonly buyerNo: number;
  readonly here: (typeof PAGES)[number]['to'];
}

/** The frame of one buyer's pages, with the navigation between them and back to all buyers. */
export function BuyerFrame({ association, sale, buyerNo, here, live = true, children }: BuyerFrameProps) {
  return (
    <TillFrame association={association} sale={sale} live={live}>
      <nav aria-label={`Buyer ${buyerNo}`} className="buyer-ways no-print">
        <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
        {PAGES.map(({ to, words }) => (
          <Link
            key={to}
            href={`/till/${buyerNo}${to}?sale=${sale.id}`}
            prefetch={false}
            aria-current={to === here ? 'page' : undefined}
          >
            {words}
          </Link>
        ))}
      </nav>
      {children}
    </TillFrame>
  );
}

export function InvoiceMark({ invoice }: Pick<BuyerView, 'invoice'>) {
  if (invoice === null) return <Mark tone="open">no invoice yet</Mark>;
  if (invoice.stillTrue) return <Mark tone="done">invoice {invoice.number}</Mark>;
  return <Mark tone="stop">invoice {invoice.number} is no longer true</Mark>;
}

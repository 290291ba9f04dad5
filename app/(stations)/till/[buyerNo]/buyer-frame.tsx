import 'server-only';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { ByNumber } from '#app/(stations)/till/by-number.tsx';
import { type Address, stationContext } from '#app/request/page-context.ts';
import { Mark } from '#app/ui/marks.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { buyerFile } from '#db/buyer/files.ts';
import type { BuyerView } from '#db/buyer/queries.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';

export interface BuyerPageProps {
  readonly params: Promise<{ buyerNo: string }>;
  readonly searchParams: Address;
}

export interface BuyerGround {
  readonly book: Book;
  readonly association: string;
  readonly sale: SaleRow;
  readonly buyerNo: number;
  readonly file: BuyerFile;
}

/** What the pages of one buyer stand on; a page that is not there where the sale has no such number. */
export async function buyerGround({ params, searchParams }: BuyerPageProps): Promise<BuyerGround> {
  const { book, association, sale } = await stationContext(searchParams, ['till']);
  const { buyerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  const buyerNo = Number.parseInt(text, 10);
  const file = buyerFile(book, sale.id, buyerNo);
  if (!file) notFound();
  return { book, association, sale, buyerNo, file };
}

const WAYS = [
  { to: '', words: 'Account' },
  { to: '/invoice', words: 'Invoice' },
  { to: '/hand-over', words: 'Hand over' },
  { to: '/record', words: 'Purchase record' },
  { to: '/details', words: 'Details' },
] as const;

interface BuyerWaysProps {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly here: (typeof WAYS)[number]['to'];
}

/** The way between the pages of one buyer, and back to all of them. */
export function BuyerWays({ saleId, buyerNo, here }: BuyerWaysProps) {
  return (
    <nav aria-label={`Buyer ${buyerNo}`} className="buyer-ways no-print">
      <Link href={`/till?sale=${saleId}`}>All buyers</Link>
      {WAYS.map(({ to, words }) => (
        <Link
          key={to}
          href={`/till/${buyerNo}${to}?sale=${saleId}`}
          prefetch={false}
          aria-current={to === here ? 'page' : undefined}
        >
          {words}
        </Link>
      ))}
    </nav>
  );
}

interface NoSuchBuyerProps {
  readonly association: string;
  readonly sale: SaleRow;
  readonly nobodys: string;
}

/** The till's box once more, with the number that nobody has still in it. */
export function NoSuchBuyer({ association, sale, nobodys }: NoSuchBuyerProps) {
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <main id="main" className="page">
        <section className="sheet">
          <h1>Till</h1>
          <ByNumber saleId={sale.id} nobodys={nobodys} />
          <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
        </section>
      </main>
    </>
  );
}

interface InvoiceStateProps {
  readonly saleId: number;
  readonly buyer: Pick<BuyerView, 'buyerNo' | 'lots' | 'invoice'>;
}

/** Whether there is an invoice, and whether it still says what was bought; with the way to it. */
export function InvoiceState({ saleId, buyer: { buyerNo, lots, invoice } }: InvoiceStateProps) {
  if (invoice === null && lots === 0) return <p>There is nothing to bill yet.</p>;
  const href = `/till/${buyerNo}/invoice?sale=${saleId}`;
  return (
    <p>
      <InvoiceMark invoice={invoice} />{' '}
      <Link href={href} prefetch={false}>
        {invoice === null ? 'Look it through and issue it' : invoice.stillTrue ? 'Show the invoice' : 'Correct it'}
      </Link>
    </p>
  );
}

export function InvoiceMark({ invoice }: Pick<BuyerView, 'invoice'>) {
  if (invoice === null) return <Mark tone="open">no invoice yet</Mark>;
  if (invoice.stillTrue) return <Mark tone="done">invoice {invoice.number}</Mark>;
  return <Mark tone="stop">invoice {invoice.number} is no longer true</Mark>;
}

import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { Masthead } from '#app/ui/masthead.tsx';
import { issuedSheets, previewSheet } from '#db/queries/sheets.ts';
import '../payout.css';
import { PaperLink } from '../paper-link.tsx';
import { IssueOne } from './issue-one.tsx';
import { SheetView } from './sheet-view.tsx';

export const metadata: Metadata = { title: 'Settlement sheet' };

interface PageProps {
  readonly params: Promise<{ sellerNo: string }>;
  readonly searchParams: Address;
}

export default async function Page({ params, searchParams }: PageProps) {
  const { book, association, sale } = await stationGround(searchParams);
  const { sellerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  const sellerNo = Number.parseInt(text, 10);
  const issued = issuedSheets(book, sale.id).findLast((one) => one.sellerNo === sellerNo);
  const today = new Date().toISOString().slice(0, 10);
  const sheet = issued?.sheet ?? previewSheet(book, { saleId: sale.id, sellerNo }, today);
  if (!sheet) notFound();
  const paper = `/api/papers/sheets?sale=${sale.id}&seller=${sellerNo}`;
  return (
    <>
      <Masthead association={association} sale={sale} here="/payout" />
      <main id="main" className="page">
        <p className="no-print">
          <Link href={`/payout?sale=${sale.id}`}>All settlements</Link>
        </p>
        <SheetView sheet={sheet} />
        <div className="acts">
          {!issued && <IssueOne saleId={sale.id} sellerNo={sellerNo} />}
          <PaperLink href={paper} name={`settlement-sheet-${sale.id}-seller-${sellerNo}.pdf`}>
            {issued ? 'Print the sheet' : 'Print a preview'}
          </PaperLink>
        </div>
      </main>
    </>
  );
}

import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { today } from '#app/today.ts';
import { likelyCheckNumber } from '#db/queries/checks.ts';
import { payoutSellerView } from '#db/queries/payout-seller-view.ts';
import { ListView } from '../list-view.tsx';
import { PaperLink } from '../paper-link.tsx';
import { PayoutFrame } from '../payout-frame.tsx';
import { CorrectOne } from './correct-one.tsx';
import { IssueOne } from './issue-one.tsx';
import { PaySeller } from './pay-seller.tsx';
import { SheetView } from './sheet-view.tsx';

export const metadata: Metadata = { title: 'Settlement sheet' };

interface PageProps {
  readonly params: Promise<{ sellerNo: string }>;
  readonly searchParams: Address;
}

export default async function Page({ params, searchParams }: PageProps) {
  const { book, association, sale } = await stationGround(searchParams, ['payout']);
  const { sellerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  const sellerNo = Number.parseInt(text, 10);
  const view = payoutSellerView(book, sale, { sellerNo, drawnOn: today(book) });
  if (!view) notFound();
  const { issued, changed, sheet, correction, older } = view;
  const papers = `/api/papers/sheets?sale=${sale.id}`;
  return (
    <PayoutFrame association={association} sale={sale} here={null}>
      {changed && <CorrectOne saleId={sale.id} sellerNo={sellerNo} sheetNumber={sheet.number} />}
      {correction && (
        <section className="sheet correction">
          <h1>{correction.title}</h1>
          <ListView list={correction} />
        </section>
      )}
      <SheetView sheet={sheet} />
      <div className="acts">
        {!issued && <IssueOne saleId={sale.id} sellerNo={sellerNo} />}
        <PaperLink href={`${papers}&seller=${sellerNo}`} name={`settlement-sheet-${sale.id}-seller-${sellerNo}.pdf`}>
          {issued ? 'Print the sheet' : 'Print a preview'}
        </PaperLink>
        {older.map((number) => (
          <PaperLink key={number} href={`${papers}&number=${number}`} name={`sheet-${sale.id}-${number}.pdf`}>
            Print sheet {number} as it was
          </PaperLink>
        ))}
      </div>
      {issued && <PaySeller saleId={sale.id} view={view} likely={likelyCheckNumber(book)} />}
    </PayoutFrame>
  );
}

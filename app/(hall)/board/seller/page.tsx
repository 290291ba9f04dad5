import type { Metadata } from 'next';
import { resultWords } from '#app/(hall)/board/result-words.ts';
import { HallFrame } from '#app/(hall)/hall-frame.tsx';
import { hallContext, type SearchParams } from '#app/request/page-context.ts';
import { TextField } from '#app/ui/field.tsx';
import { Live } from '#app/ui/live.tsx';
import { ColumnHeads } from '#app/ui/text.tsx';
import { type SellerBoard, sellerBoardFor } from '#db/outcome/board-view.ts';
import { sellingSale } from '#db/sale/queries.ts';

export const metadata: Metadata = { title: 'Follow a seller number' };

/** A seller's lots on a phone while they are being sold, with nothing that the hall does not see anyway. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, word } = await hallContext(searchParams);
  const sale = sellingSale(book, word('sale'));
  const typed = word('no') ?? '';
  const code = word('code') ?? '';
  const sellerNo = /^[1-9]\d{0,4}$/.test(typed) ? Number.parseInt(typed, 10) : 0;
  const view = sale && sellerBoardFor(book, sale, { sellerNo, code });
  return (
    <HallFrame association={association} guide="board" kind="page-narrow">
      <h1>Follow a seller number</h1>
      {sale && <p>Number and code stand on the receipt of goods. What its lots bring then comes up here by itself.</p>}
      {sale ? <AskNumber {...{ typed, code }} wrong={typed !== '' && !view} /> : <NotNow />}
      {view && (
        <section className="sheet" aria-label={`Seller ${view.sellerNo}`}>
          <Live />
          <h2>
            Seller {view.sellerNo}, {view.name}
          </h2>
          <OwnLots view={view} />
        </section>
      )}
    </HallFrame>
  );
}

/** A plain form: it works on any phone, also before the page's own code is there. */
function AskNumber({ typed, code, wrong }: { readonly typed: string; readonly code: string; readonly wrong: boolean }) {
  return (
    <form action="/board/seller" className="fields">
      <TextField label="Seller number" name="no" inputMode="numeric" defaultValue={typed} />
      <TextField
        label="Code"
        name="code"
        autoComplete="off"
        autoCapitalize="characters"
        defaultValue={code}
        error={wrong ? 'Number and code do not belong together: both stand on the receipt of goods.' : undefined}
      />
      <div>
        <button type="submit" className="act">
          Show its lots
        </button>
      </div>
    </form>
  );
}

/** Before and after the selling: what a seller's lots brought is for that seller. */
function NotNow() {
  return (
    <>
      <p>Bidding is not open now. You can follow a seller number here while it is.</p>
      <p>
        A seller's results are on their settlement sheet. With a code from the office a seller also finds them at{' '}
        <a href="/prices/own">Your own goods</a>.
      </p>
    </>
  );
}

/** A seller number's lots, those to come before those that were called, with what stands before them or what they brought. */
function OwnLots({ view: { open, results } }: { readonly view: SellerBoard }) {
  if (open.length + results.length === 0) return <p>No lot of this number is in the sale.</p>;
  const rows = [
    ...open.map(({ lotNo, goods, before }) => ({
      lotNo,
      goods,
      words: before === 0 ? 'is up now' : `${before} before it`,
    })),
    ...results.map((result) => ({ ...result, words: resultWords(result) })),
  ];
  return (
    <table>
      <ColumnHeads words={['Lot', 'Goods']} figures={['Brought']} />
      <tbody>
        {rows.map(({ lotNo, goods, words }) => (
          <tr key={lotNo}>
            <th scope="row">{lotNo}</th>
            <td>{goods}</td>
            <td className="figure">{words}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

import { shortDate } from '#lib/date/date.ts';
import '#app/(hall)/prices/prices.css';
import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { HallFrame } from '#app/(hall)/hall-frame.tsx';
import { wordOf } from '#app/(hall)/prices/prices-context.ts';
import { Amount, Figure } from '#app/(hall)/prices/range-table.tsx';
import { theBook } from '#app/request/book.ts';
import { signedInMember } from '#app/request/member-session.ts';
import type { SearchParams } from '#app/request/page-context.ts';
import { refuseConnection } from '#app/server/connection.ts';
import { TextField } from '#app/ui/field.tsx';
import { SecureLink } from '#app/ui/secure-link.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import { type OwnGoods, type OwnLot, type OwnNumber, ownGoods } from '#db/price/own-goods.ts';
import { theAssociation } from '#db/sale/queries.ts';
import { showMoney, ZERO } from '#lib/money/money.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { priceFor, quantityFor } from '#lib/settlement/spelling.ts';

export const metadata: Metadata = { title: 'Your own goods', robots: 'noindex' };

/** A member's own goods over the years, for whoever came in with their code; the form for it otherwise. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const wrong = wordOf(await searchParams, 'wrong') !== '';
  const book = await theBook();
  const shut = refuseConnection(book, await headers()) !== undefined;
  const personId = await signedInMember();
  const own = personId === undefined ? null : ownGoods(book, personId);
  return (
    <HallFrame association={theAssociation(book)?.name ?? 'The association'} here="/prices/own">
      <h1>Your own goods</h1>
      {shut ? <SecureLink path="/prices/own" /> : own ? <OwnNumbers own={own} /> : <CodeForm wrong={wrong} />}
    </HallFrame>
  );
}

const WRONG = 'This code is not good, or not any more: ask the office for a new one.';

/** Where a one-time code is typed. */
function CodeForm({ wrong }: { readonly wrong: boolean }) {
  return (
    <form method="post" action="/prices/own/enter" className="sheet">
      <p>
        What your own goods brought over the years, and your settlement sheets. The office gives you a code; it opens
        this page once, for you alone.
      </p>
      <div className="fields">
        <TextField
          label="Code from the office"
          name="code"
          hint="Twelve letters and digits, such as ABCD-EFGH-2345"
          error={wrong ? WRONG : undefined}
          autoCapitalize="characters"
          maxLength={40}
          wide
          required
        />
      </div>
      <p className="acts">
        <button type="submit" className="act">
          Show my goods
        </button>
      </p>
    </form>
  );
}

/** Every seller number of one person, sale by sale, with its lots and its sheet. */
function OwnNumbers({ own: { name, numbers } }: { readonly own: OwnGoods }) {
  return (
    <>
      <p>
        {name}: {numbers.length === 0 ? 'no goods of yours are in the book yet.' : 'newest sale first.'}
      </p>
      {numbers.map((number) => (
        <OneNumber key={`${number.saleId} ${number.sellerNo}`} number={number} />
      ))}
      <form method="post" action="/prices/own/leave" className="no-print">
        <p className="acts">
          <button type="submit">Close this page on this device</button>
        </p>
      </form>
    </>
  );
}

function OneNumber({ number }: { readonly number: OwnNumber }) {
  const { saleId, sale, heldOn, season, currency, sellerNo, shared, hasSheet, lots, grossCents } = number;
  const title = `${sale}, ${shortDate(heldOn)}, seller number ${sellerNo}`;
  const sheet = `/prices/own/sheet?sale=${saleId}&seller=${sellerNo}`;
  return (
    <section className="sheet" aria-label={title}>
      <h2>{title}</h2>
      <p>
        Season {season}: {showMoney(grossCents)} {currency} before commission and fees
        {shared && ', together with those who share the number'}.
      </p>
      <p>{hasSheet ? <a href={sheet}>Settlement sheet as a PDF</a> : 'No settlement sheet was issued.'}</p>
      {lots.length > 0 && <Lots title={title} lots={lots} />}
    </section>
  );
}

function Lots({ title, lots }: { readonly title: string; readonly lots: readonly OwnLot[] }) {
  return (
    <ScrollRegion className="range-scroll scroll-x slips-room" label={`Lots: ${title}`}>
      <table className="range-table slips">
        <ColumnHeads
          words={['Goods']}
          figures={['How many', 'Price', 'Brought']}
          after={['Lot', 'Size, grade, section']}
        />
        <tbody>
          {lots.map((lot) => (
            <tr key={lot.lotNo}>
              <th scope="row">{lot.name}</th>
              <Figure head="How many">{quantityFor(lot).words}</Figure>
              <Figure head="Price">
                {soldAt(lot) === null ? outcomeOf(lot) : priceFor(soldAt(lot) ?? ZERO, lot.by).words}
              </Figure>
              <Amount head="Brought" cents={soldAt(lot) === null ? null : lot.amountCents} />
              <td data-head="Lot">{lot.lotNo}</td>
              <td className="slip-wide" data-head="Size, grade, section">
                {lot.words}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

/** Only a sale has a price to be shown. */
function soldAt({ outcome, priceCents }: OwnLot) {
  return outcome === 'sold' ? priceCents : null;
}

function outcomeOf({ outcome }: OwnLot): string {
  return outcome === null ? 'not called' : OUTCOME_WORDS[outcome];
}

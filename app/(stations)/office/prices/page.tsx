import type { Metadata } from 'next';
import Link from 'next/link';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { fewestNow } from '#app/request/page-context.ts';
import { pricedSeasons } from '#db/price/season-prices.ts';
import { countWords } from '#lib/result/text.ts';
import { listed } from '#lib/settlement/spelling.ts';
import { FewestForm } from './fewest-form.tsx';

export const metadata: Metadata = { title: 'Prices' };

export default officePage({ here: '/office/prices' }, ({ book }) => {
  const { fewest, said } = fewestNow(book);
  const [newest] = pricedSeasons(book, fewest);
  const withheld = newest?.goods.filter(({ range }) => range === null).map(({ name }) => name) ?? [];
  return (
    <section className="sheet">
      <h1>Who stands behind a published price</h1>
      <p>
        A range that rests on one or two people gives their business away; so what fewer than this many sellers or
        buyers had a part in goes together with others on the <Link href="/prices">price pages</Link>, or is left out.
      </p>
      <p>
        Now: at least {countWords(fewest, 'seller')} and {countWords(fewest, 'buyer')} in a season
        {said ? '.' : ', unless you say otherwise.'}
      </p>
      {newest && (
        <p>
          Left out of season {newest.season}: {withheld.length === 0 ? 'nothing' : listed(withheld)}.
        </p>
      )}
      <FewestForm fewest={fewest} />
    </section>
  );
});

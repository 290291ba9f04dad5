import '#app/(hall)/prices/prices.css';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { HallMasthead } from '#app/(hall)/hall-masthead.tsx';
import { pricesContext, wholeSeason, wordOf } from '#app/(hall)/prices/ground.ts';
import { RangeTable } from '#app/(hall)/prices/range-table.tsx';
import { Caution, SeasonChoice, SeasonWords } from '#app/(hall)/prices/season-words.tsx';
import type { Address } from '#app/request/page-context.ts';
import { Unbroken } from '#app/ui/text.tsx';
import type { SeasonPrices } from '#db/price/season-prices.ts';
import type { PriceMeasure } from '#lib/price/table.ts';
import { FOR_ONE, rangeInWords } from '#lib/price/words.ts';

export const metadata: Metadata = { title: 'Price report' };

/** A season on one page for the newsletter: each kind in a sentence, then the table. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const named = wordOf(await searchParams, 'season');
  const { association, seasons } = await pricesContext();
  const season = named === '' ? seasons[0] : seasons.find((one) => one.season === named);
  if (!season) notFound();
  await wholeSeason(season);
  return (
    <>
      <HallMasthead association={association} />
      <main id="main" className="page prices report">
        <h1>What goods brought, season {season.season}</h1>
        <SeasonWords season={season} />
        <SeasonChoice path="/prices/report" seasons={seasons} shown={season.season} />
        {season.sales.length > 0 && (
          <p className="no-print">
            <a href={`/prices/report/pdf?season=${encodeURIComponent(season.season)}`}>As a PDF for the newsletter</a>
          </p>
        )}
        <SeasonReport season={season} />
        <Caution fewest={season.fewest} />
      </main>
    </>
  );
}

const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly PriceMeasure[];

/** Each kind in a sentence, then a table for each measure. */
function SeasonReport({ season: { season, goods: all } }: { readonly season: SeasonPrices }) {
  const shown = all.flatMap(({ goods, name, measure, range }) => (range ? [{ goods, name, measure, range }] : []));
  const withheld = all.filter(({ range }) => range === null).map(({ name }) => name);
  return (
    <section className="sheet" aria-label="Each kind in a sentence">
      <ul className="report-words">
        {shown.map(({ goods, name, measure, range }) => (
          <li key={`${goods} ${measure}`}>
            <Unbroken>{rangeInWords({ name, season }, range)}</Unbroken>
          </li>
        ))}
      </ul>
      {MEASURES.map((measure) => {
        const lines = shown
          .filter((one) => one.measure === measure)
          .map(({ goods, name, range }) => ({ key: goods, name, range }));
        const caption = `Season ${season}, for ${FOR_ONE[measure]}`;
        return lines.length > 0 && <RangeTable key={measure} caption={caption} head="Goods" lines={lines} />;
      })}
      {withheld.length > 0 && <p className="small">Sold, but by or to too few to be shown: {withheld.join(', ')}.</p>}
    </section>
  );
}

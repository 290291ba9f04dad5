import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import type { Address } from '#app/station.ts';
import type { Measure } from '#lib/price-table.ts';
import { FOR_ONE, rangeInWords } from '#lib/range-words.ts';
import { pricesGround, wordOf } from '../ground.ts';
import { PricesMasthead } from '../prices-masthead.tsx';
import { RangeTable } from '../range-table.tsx';
import { SeasonChoice } from '../season-choice.tsx';
import { Caution, SeasonWords } from '../season-words.tsx';
import '../prices.css';

export const metadata: Metadata = { title: 'Price report' };

const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly Measure[];

/** A season on one page for the newsletter: each kind in a sentence, then the table. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const named = wordOf(await searchParams, 'season');
  const { association, seasons } = await pricesGround();
  const season = named === '' ? seasons[0] : seasons.find((one) => one.season === named);
  if (!season) notFound();
  const shown = season.goods.flatMap(({ goods, name, measure, range }) =>
    range ? [{ goods, name, measure, range }] : [],
  );
  const withheld = season.goods.filter(({ range }) => range === null).map(({ name }) => name);
  return (
    <>
      <PricesMasthead association={association} />
      <main id="main" className="page prices report">
        <h1>What goods brought, season {season.season}</h1>
        <SeasonWords season={season} />
        <SeasonChoice path="/prices/report" seasons={seasons} shown={season.season} />
        {season.sales.length > 0 && (
          <p className="no-print">
            <a href={`/prices/report/pdf?season=${encodeURIComponent(season.season)}`}>As a PDF for the newsletter</a>
          </p>
        )}
        <section className="sheet" aria-label="Each kind in a sentence">
          <ul className="report-words">
            {shown.map((goods) => (
              <li key={`${goods.goods} ${goods.measure}`}>
                {rangeInWords({ name: goods.name, season: season.season }, goods.range)}
              </li>
            ))}
          </ul>
          {MEASURES.map((measure) => {
            const lines = shown
              .filter((goods) => goods.measure === measure)
              .map(({ goods, name, range }) => ({ key: goods, name, range }));
            const caption = `Season ${season.season}, for ${FOR_ONE[measure]}`;
            return lines.length > 0 && <RangeTable key={measure} caption={caption} head="Goods" lines={lines} />;
          })}
          {withheld.length > 0 && (
            <p className="small">Sold, but by or to too few to be shown: {withheld.join(', ')}.</p>
          )}
        </section>
        <Caution fewest={season.fewest} />
      </main>
    </>
  );
}

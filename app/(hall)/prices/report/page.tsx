import '#app/(hall)/prices/prices.css';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { HallFrame } from '#app/(hall)/hall-frame.tsx';
import {
  MEASURES,
  pricesContext,
  seasonNamed,
  shownAndWithheld,
  wholeSeason,
  wordOf,
} from '#app/(hall)/prices/prices-context.ts';
import { RangeTable } from '#app/(hall)/prices/range-table.tsx';
import { Caution, SeasonChoice, SeasonWords, Withheld } from '#app/(hall)/prices/season-parts.tsx';
import type { SearchParams } from '#app/request/page-context.ts';
import { Unbroken } from '#app/ui/text.tsx';
import type { SeasonPrices } from '#db/price/season-prices.ts';
import { FOR_ONE, rangeInWords } from '#lib/price/words.ts';

export const metadata: Metadata = { title: 'Price report' };

/** A season on one page for the newsletter: each kind in a sentence, then the table. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const named = wordOf(await searchParams, 'season');
  const { association, seasons } = await pricesContext();
  const season = seasonNamed(seasons, named);
  if (!season) notFound();
  await wholeSeason(season);
  return (
    <HallFrame association={association} kind="prices report">
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
    </HallFrame>
  );
}

/** Each kind in a sentence, then a table for each measure. */
function SeasonReport({ season: { season, goods } }: { readonly season: SeasonPrices }) {
  const { shown, withheld } = shownAndWithheld(goods);
  return (
    <section className="sheet" aria-label="Each kind in a sentence">
      <ul className="report-words">
        {shown.map(({ key, name, measure, range }) => (
          <li key={`${key} ${measure}`}>
            <Unbroken>{rangeInWords({ name, season }, range)}</Unbroken>
          </li>
        ))}
      </ul>
      {MEASURES.map((measure) => {
        const lines = shown.filter((one) => one.measure === measure);
        const caption = `Season ${season}, for ${FOR_ONE[measure]}`;
        return lines.length > 0 && <RangeTable key={measure} caption={caption} head="Goods" lines={lines} />;
      })}
      <Withheld names={withheld} />
    </section>
  );
}

import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import type { Address } from '#app/station.ts';
import { HallMasthead } from '../../hall-masthead.tsx';
import { pricesGround, wholeSeason, wordOf } from '../ground.ts';
import { SeasonChoice } from '../season-choice.tsx';
import { Caution, SeasonWords } from '../season-words.tsx';
import { SeasonReport } from './season-report.tsx';
import '../prices.css';

export const metadata: Metadata = { title: 'Price report' };

/** A season on one page for the newsletter: each kind in a sentence, then the table. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const named = wordOf(await searchParams, 'season');
  const { association, seasons } = await pricesGround();
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

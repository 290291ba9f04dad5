import type { SeasonPrices } from '#db/queries/season-prices.ts';

/** The tables of every season to take away. */
export function Files({ seasons, shown }: { readonly seasons: readonly SeasonPrices[]; readonly shown: SeasonPrices }) {
  return (
    <section className="files" aria-labelledby="files">
      <h2 id="files">To print, and the tables as files</h2>
      <p>
        <a href={`/prices/report?season=${encodeURIComponent(shown.season)}`}>The price report of {shown.season}</a>, a
        page for the newsletter.
      </p>
      <ul>
        {seasons.map(({ season }) => (
          <li key={season}>
            Season {season}: <a href={`/prices/data/${encodeURIComponent(season)}.csv`}>{season} as CSV</a>,{' '}
            <a href={`/prices/data/${encodeURIComponent(season)}.json`}>{season} as JSON</a>
          </li>
        ))}
        <li>
          <a href="/prices/data/datapackage.json">What the columns mean</a>, as a Data Package descriptor
        </li>
      </ul>
    </section>
  );
}

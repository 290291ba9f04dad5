import type { SeasonPrices } from '#db/queries/season-prices.ts';

interface ChoiceProps {
  readonly path: string;
  readonly seasons: readonly Pick<SeasonPrices, 'season'>[];
  /** The season that is shown; `every` where all of them are. */
  readonly shown: string;
  /** Offered where all seasons fit on one page. */
  readonly every?: boolean;
}

/** The way to every season of the book: plain addresses, to be shared and kept. */
export function SeasonChoice({ path, seasons, shown, every = false }: ChoiceProps) {
  if (seasons.length < 2) return null;
  return (
    <nav className="season-choice no-print" aria-label="Seasons">
      <ul>
        {seasons.map(({ season }, at) => (
          <li key={season}>
            <a
              href={at === 0 ? path : `${path}?season=${encodeURIComponent(season)}`}
              aria-current={season === shown ? 'page' : undefined}
            >
              {season}
              {[', newest', ', the one before'][at]}
            </a>
          </li>
        ))}
        {every && (
          <li>
            <a href={`${path}?season=every`} aria-current={shown === 'every' ? 'page' : undefined}>
              every season
            </a>
          </li>
        )}
      </ul>
    </nav>
  );
}

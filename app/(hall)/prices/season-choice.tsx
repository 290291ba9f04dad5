import type { SeasonPrices } from '#db/queries/season-prices.ts';

interface ChoiceProps {
  readonly path: string;
  readonly seasons: readonly Pick<SeasonPrices, 'season'>[];
  readonly shown: string;
}

/** The way to every season of the book: plain addresses, to be shared and kept. */
export function SeasonChoice({ path, seasons, shown }: ChoiceProps) {
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
      </ul>
    </nav>
  );
}

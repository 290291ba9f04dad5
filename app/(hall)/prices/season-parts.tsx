import type { SeasonPrices } from '#db/price/season-prices.ts';
import { shortDate } from '#lib/date/date.ts';
import { countWords } from '#lib/result/text.ts';
import { joined, listed } from '#lib/settlement/spelling.ts';

/** Which sales the figures are of, and on which days; a sale that runs is said to run. */
export function SeasonWords({ season: { season, sales, currency } }: { readonly season: SeasonPrices }) {
  const held = sales.map(({ name, heldOn, venue }) => joined([name, shortDate(heldOn), venue], ', '));
  if (sales.length === 0) {
    return (
      <p className="notice">
        Season {season}, from a price list: no sale, seller or buyer of it is in the book. It is shown as it was given
        out; where the list gave averages, low and high are those of averages.
      </p>
    );
  }
  const running = sales.filter((sale) => sale.running).map(({ name }) => name);
  return (
    <>
      <p>
        Season {season}, {countWords(sales.length, 'sale')}: {held.join('; ')}. Hammer prices in {currency}, before
        commission and fees.
      </p>
      {running.length > 0 && (
        <p className="notice">
          {listed(running)} {running.length === 1 ? 'is' : 'are'} still going on: only what has been called is counted.
        </p>
      )}
    </>
  );
}

/** What these figures are and are not. */
export function Caution({ fewest }: { readonly fewest: number }) {
  return (
    <p className="small soft">
      This is what goods brought, not what they will bring. Nothing is shown of which fewer than {fewest} sellers or{' '}
      {fewest} buyers had a part: it goes together with others or is left out.
    </p>
  );
}

/** The kinds of which no range is shown. */
export function Withheld({ names }: { readonly names: readonly string[] }) {
  if (names.length === 0) return null;
  return <p className="small">Sold, but by or to too few to be shown: {names.join(', ')}.</p>;
}

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

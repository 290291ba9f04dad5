import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { pricesGround } from '../ground.ts';
import { PricesMasthead } from '../prices-masthead.tsx';
import { Caution, SeasonWords } from '../season-words.tsx';
import { historyOf } from './history.ts';
import { Parts } from './parts.tsx';
import { Strip } from './strip.tsx';
import '../prices.css';

interface PageProps {
  readonly params: Promise<{ readonly goods: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const [history] = historyOf((await pricesGround()).seasons, decodeURIComponent((await params).goods));
  return { title: history ? `Prices of ${history.name}` : 'Prices' };
}

/** What one kind of goods brought, season by season, then in its parts. */
export default async function Page({ params }: PageProps) {
  const code = decodeURIComponent((await params).goods);
  const { association, seasons } = await pricesGround();
  const histories = historyOf(seasons, code);
  const [first] = histories;
  const [newest] = first?.years ?? [];
  if (!first || !newest) notFound();
  return (
    <>
      <PricesMasthead association={association} />
      <main id="main" className="page prices">
        <h1>{first.name}</h1>
        {first.scientificName && (
          <p className="soft">
            <i>{first.scientificName}</i>
          </p>
        )}
        <SeasonWords season={newest.season} />
        {histories.map((history) => (
          <section key={history.measure} className="sheet" aria-labelledby={`seasons-${history.measure}`}>
            <Strip history={history} />
            <Parts history={history} />
          </section>
        ))}
        <Caution fewest={newest.season.fewest} />
      </main>
    </>
  );
}

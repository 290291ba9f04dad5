import type { Metadata } from 'next';
import { Files } from './files.tsx';
import { Glance } from './glance.tsx';
import { pricesGround } from './ground.ts';
import { PricesMasthead } from './prices-masthead.tsx';
import { Caution, SeasonWords } from './season-words.tsx';
import './prices.css';

export const metadata: Metadata = { title: 'Prices' };

/** What every kind of goods brought in the newest season. */
export default async function Page() {
  const { association, seasons } = await pricesGround();
  const [season] = seasons;
  return (
    <>
      <PricesMasthead association={association} home />
      <main id="main" className="page prices">
        <h1>{season ? `Prices of season ${season.season}` : 'Prices'}</h1>
        {season ? <SeasonWords season={season} /> : <p>Nothing has been sold yet, so there is no price to show.</p>}
        {season && <Glance season={season} />}
        {season && <Caution fewest={season.fewest} />}
        {season && <Files seasons={seasons} />}
      </main>
    </>
  );
}

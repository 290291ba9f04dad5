import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import type { Address } from '#app/station.ts';
import { pricedGoods } from '#db/queries/priced-goods.ts';
import { commonNames } from '#lib/price-finding.ts';
import { pricesGround, wordOf } from '../ground.ts';
import { PricesMasthead } from '../prices-masthead.tsx';
import { SeasonChoice } from '../season-choice.tsx';
import { Caution, SeasonWords } from '../season-words.tsx';
import { historyOf } from './history.ts';
import { Parts } from './parts.tsx';
import { Strip } from './strip.tsx';
import '../prices.css';

interface PageProps {
  readonly params: Promise<{ readonly goods: string }>;
  readonly searchParams: Address;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { book } = await pricesGround();
  const code = decodeURIComponent((await params).goods);
  const goods = pricedGoods(book).find((one) => one.goods === code);
  return { title: goods ? `Prices of ${goods.name}` : 'Prices' };
}

/** What one kind of goods brought, season by season, then the parts of one season or of every one. */
export default async function Page({ params, searchParams }: PageProps) {
  const code = decodeURIComponent((await params).goods);
  const named = wordOf(await searchParams, 'season');
  const { book, association, seasons } = await pricesGround();
  const goods = pricedGoods(book).find((one) => one.goods === code);
  const histories = historyOf(seasons, code);
  const years = seasons.filter(({ season }) =>
    histories.some((history) => history.years.some((year) => year.season.season === season)),
  );
  const season = named === '' || named === 'every' ? years[0] : years.find((one) => one.season === named);
  if (!goods || (named !== '' && !season)) notFound();
  const called = commonNames(code).join(', ');
  const shown = named === 'every' ? named : (season?.season ?? '');
  return (
    <>
      <PricesMasthead association={association} />
      <main id="main" className="page prices">
        <h1>{goods.name}</h1>
        <p className="soft">
          {goods.scientificName && <i>{goods.scientificName}</i>} {called && `(also called ${called})`}
        </p>
        {season ? <SeasonWords season={season} /> : <p>None of it has been sold at our sales yet.</p>}
        {histories.map((history) => (
          <section key={history.measure} className="sheet" aria-labelledby={`seasons-${history.measure}`}>
            <Strip history={history} season={shown} />
            <SeasonChoice
              path={`/prices/${encodeURIComponent(code)}`}
              seasons={history.years.map((year) => year.season)}
              shown={shown}
              every
            />
            <Parts history={history} shown={shown} />
          </section>
        ))}
        {season && <Caution fewest={season.fewest} />}
      </main>
    </>
  );
}

import type { Metadata } from 'next';
import type { Address } from '#app/station.ts';
import { pricedGoods } from '#db/queries/priced-goods.ts';
import { pricesGround, wordOf } from '../ground.ts';
import { PricesMasthead } from '../prices-masthead.tsx';
import { SeasonChoice } from '../season-choice.tsx';
import { Caution, SeasonWords } from '../season-words.tsx';
import { goodsGround } from './goods-ground.ts';
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
  const ground = await goodsGround(code, wordOf(await searchParams, 'season'));
  const { association, goods, called, histories, season, shown } = ground;
  return (
    <>
      <PricesMasthead association={association} />
      <main id="main" className="page prices">
        <h1>{goods.name}</h1>
        <p className="soft">
          {goods.scientificName && <i>{goods.scientificName}</i>}{' '}
          {called.length > 0 && `(also called ${called.join(', ')})`}
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

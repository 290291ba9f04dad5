import type { Metadata } from 'next';
import type { Address } from '#app/station.ts';
import { pricedGoods } from '#db/queries/price-lists.ts';
import { HallMasthead } from '../../hall-masthead.tsx';
import { pricesGround } from '../ground.ts';
import { SeasonChoice } from '../season-choice.tsx';
import { Caution, SeasonWords } from '../season-words.tsx';
import { addressOf } from './address.ts';
import { goodsGround } from './goods-ground.ts';
import { GoodsHeading } from './heading.tsx';
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

/** What one kind of goods brought, season by season, then its parts in one season; or one part of it over the seasons. */
export default async function Page({ params, searchParams }: PageProps) {
  const code = decodeURIComponent((await params).goods);
  const { association, goods, called, histories, part, season } = await goodsGround(code, await searchParams);
  const named = season?.season ?? '';
  return (
    <>
      <HallMasthead association={association} />
      <main id="main" className="page prices">
        <GoodsHeading goods={goods} called={called} part={part} />
        {season ? <SeasonWords season={season} /> : <p>None of it has been sold at our sales yet.</p>}
        {histories.map((history) => (
          <section key={history.measure} className="sheet" aria-labelledby={`seasons-${history.measure}`}>
            <Strip history={history} part={part} season={named} />
            {part === '' && (
              <SeasonChoice path={addressOf(code)} seasons={history.years.map((year) => year.season)} shown={named} />
            )}
            {part === '' && <Parts code={code} history={history} season={named} />}
          </section>
        ))}
        {season && <Caution fewest={season.fewest} />}
      </main>
    </>
  );
}

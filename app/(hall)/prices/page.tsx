import type { Metadata } from 'next';
import { notFound, redirect } from 'next/navigation';
import type { Address } from '#app/station.ts';
import { pricedGoods } from '#db/queries/price-lists.ts';
import { findGoods } from '#lib/price-finding.ts';
import { HallMasthead } from '../hall-masthead.tsx';
import { Files } from './files.tsx';
import { FindForm, Found } from './find-form.tsx';
import { Glance } from './glance.tsx';
import { pricesGround, wholeSeason, wordOf } from './ground.ts';
import { SeasonChoice } from './season-choice.tsx';
import { Caution, SeasonWords } from './season-words.tsx';
import './prices.css';

export const metadata: Metadata = { title: 'Prices' };

/** What every kind of goods brought in a season, the newest unless the address names another; or what a name means. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const words = await searchParams;
  const { book, association, seasons } = await pricesGround();
  const [text, named] = [wordOf(words, 'find'), wordOf(words, 'season')];
  const all = pricedGoods(book);
  const found = findGoods(all, text);
  const [only, ...others] = found;
  if (only && others.length === 0) redirect(`/prices/${encodeURIComponent(only.goods)}`);
  const season = named === '' ? seasons[0] : seasons.find((one) => one.season === named);
  if (named !== '' && !season) notFound();
  await wholeSeason(season);
  return (
    <>
      <HallMasthead association={association} here="/prices" />
      <main id="main" className="page prices">
        <h1>{season ? `Prices of season ${season.season}` : 'Prices'}</h1>
        {season ? (
          <SeasonWords season={season} />
        ) : (
          <p>Nothing has been sold yet. What goods bring stands here once several people have sold and bought some.</p>
        )}
        {season && <FindForm goods={all} text={text} />}
        {season && text.trim() !== '' && <Found goods={found} text={text} all={all} />}
        {season && <SeasonChoice path="/prices" seasons={seasons} shown={season.season} />}
        {season && <Glance season={season} />}
        {season && <Caution fewest={season.fewest} />}
        {season && <Files seasons={seasons} shown={season} />}
      </main>
    </>
  );
}

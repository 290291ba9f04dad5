import './prices.css';
import type { Metadata } from 'next';
import { notFound, redirect } from 'next/navigation';
import { HallFrame } from '#app/(hall)/hall-frame.tsx';
import type { SearchParams } from '#app/request/page-context.ts';
import { Unbroken } from '#app/ui/text.tsx';
import { pricedGoods } from '#db/price/lists.ts';
import type { SeasonPrices } from '#db/price/season-prices.ts';
import { type Findable, findGoods } from '#lib/price/find.ts';
import { tenfoldScale } from '#lib/price/plot.ts';
import type { PriceMeasure } from '#lib/price/table.ts';
import { FOR_ONE, fewInWords, rangeInWords } from '#lib/price/words.ts';
import {
  MEASURES,
  pricesAddress,
  pricesContext,
  seasonNamed,
  shownAndWithheld,
  wholeSeason,
  wordOf,
} from './prices-context.ts';
import { PlotScale, RangePlot, RangeTable } from './range-table.tsx';
import { Caution, SeasonChoice, SeasonWords, Withheld } from './season-parts.tsx';

export const metadata: Metadata = { title: 'Prices' };

/** What every kind of goods brought in a season, the newest unless the address names another; or what a name means. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const words = await searchParams;
  const { book, association, seasons } = await pricesContext();
  const [text, named] = [wordOf(words, 'find'), wordOf(words, 'season')];
  const all = pricedGoods(book);
  const found = findGoods(all, text);
  const [only, ...others] = found;
  if (only && others.length === 0) redirect(pricesAddress(only.goods));
  const season = seasonNamed(seasons, named);
  if (named !== '' && !season) notFound();
  await wholeSeason(season);
  return (
    <HallFrame association={association} here="/prices">
      <h1>{season ? `Prices of season ${season.season}` : 'Prices'}</h1>
      {season ? (
        <SeasonWords season={season} />
      ) : (
        <p>Nothing has been sold yet. What goods bring stands here once several people have sold and bought some.</p>
      )}
      {season && <FindForm goods={all} text={text} />}
      {season && text.trim() !== '' && <Found goods={found} text={text} all={all} />}
      {season && <SeasonChoice path="/prices" seasons={seasons} shown={season.season} />}
      {season && MEASURES.map((measure) => <Glance key={measure} measure={measure} season={season} />)}
      {season && <Caution fewest={season.fewest} />}
      {season && <Files seasons={seasons} shown={season} />}
    </HallFrame>
  );
}

/** The tables of every season to take away. */
function Files({ seasons, shown }: { readonly seasons: readonly SeasonPrices[]; readonly shown: SeasonPrices }) {
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

interface FindProps {
  readonly goods: readonly Findable[];
  readonly text: string;
}

/** A name, typed or chosen, then one tap; works without a script. */
function FindForm({ goods, text }: FindProps) {
  return (
    <form className="find no-print" method="get" action="/prices">
      <label htmlFor="find">Find a kind by any name</label>
      <input id="find" name="find" list="names" defaultValue={text} autoComplete="off" maxLength={80} />
      <datalist id="names">
        {goods.map(({ goods: code, name }) => (
          <option key={code} value={name} />
        ))}
      </datalist>
      <button type="submit" className="act">
        Find
      </button>
    </form>
  );
}

/** What a name may mean where it means several, or what there is where it means nothing. */
function Found({ goods, text, all }: FindProps & { readonly all: readonly Findable[] }) {
  const shown = goods.length > 0 ? goods : all;
  return (
    <section className="sheet" aria-labelledby="found">
      <h2 id="found">{goods.length > 0 ? `“${text}” may be` : `Nothing here is called “${text}”`}</h2>
      {goods.length === 0 && <p>These kinds have been sold at our sales:</p>}
      <ul className="found">
        {shown.map(({ goods: code, name, scientificName }) => (
          <li key={code}>
            <a href={pricesAddress(code)}>{name}</a> {scientificName && <i>{scientificName}</i>}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Every kind of goods of a season that is sold by this measure, one line a kind, all on one scale. */
function Glance({ measure, season }: { readonly measure: PriceMeasure; readonly season: SeasonPrices }) {
  const sold = season.goods.filter((goods) => goods.measure === measure);
  if (sold.length === 0) return null;
  const { shown, withheld } = shownAndWithheld(sold);
  const scale = tenfoldScale(shown.flatMap(({ range }) => [range.lowCents, range.highCents]));
  return (
    <section className="sheet" aria-labelledby={`by-${measure}`}>
      <h2 id={`by-${measure}`}>Prices for {FOR_ONE[measure]}</h2>
      {shown.length > 0 && (
        <>
          <p className="small soft">
            The line goes from the lowest price to the highest, the bar holds the middle half, and the stroke across is
            the median. Each upright stands for ten times the price of the one before it.
          </p>
          <PlotScale scale={scale} />
          <ul className="glance">
            {shown.map((goods) => (
              <li key={goods.key}>
                <h3>
                  <a href={pricesAddress(goods.key)}>{goods.name}</a>{' '}
                  {goods.scientificName && <i className="soft">{goods.scientificName}</i>}
                </h3>
                <RangePlot range={goods.range} scale={scale} />
                <p className="small">
                  <Unbroken>{rangeInWords({ name: goods.name, season: season.season }, goods.range)}</Unbroken>{' '}
                  {fewInWords(goods.range)}
                </p>
              </li>
            ))}
          </ul>
          <RangeTable caption={`Season ${season.season}, for ${FOR_ONE[measure]}`} head="Goods" lines={shown} />
        </>
      )}
      <Withheld names={withheld} />
    </section>
  );
}

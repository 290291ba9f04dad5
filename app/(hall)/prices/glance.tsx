import { Unbroken } from '#app/ui/unbroken.tsx';
import type { GoodsPrices, SeasonPrices } from '#db/queries/season-prices.ts';
import type { Measure } from '#lib/price-table.ts';
import { tenfoldScale } from '#lib/range-plot.ts';
import { FOR_ONE, fewInWords, rangeInWords } from '#lib/range-words.ts';
import { PlotScale, RangePlot } from './range-plot.tsx';
import { RangeTable } from './range-table.tsx';

const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly Measure[];

/** Every kind of goods of a season, one line a kind, all of a measure on one scale. */
export function Glance({ season }: { readonly season: SeasonPrices }) {
  const measures = MEASURES.filter((measure) => season.goods.some((goods) => goods.measure === measure));
  return measures.map((measure) => <MeasureGlance key={measure} measure={measure} season={season} />);
}

function MeasureGlance({ measure, season }: { readonly measure: Measure; readonly season: SeasonPrices }) {
  const all = season.goods.filter((goods) => goods.measure === measure);
  // By name: a copy of the whole would work out the parts of every range, which nobody asks for here.
  const shown = all.flatMap(({ goods, name, scientificName, range }) =>
    range ? [{ goods, name, scientificName, range }] : [],
  );
  const withheld = all.filter(({ range }) => range === null).map(({ name }) => name);
  const scale = tenfoldScale(shown.flatMap(({ range }) => [range.lowCents, range.highCents]));
  const lines = shown.map(({ goods, name, range }) => ({ key: goods, name, range }));
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
              <li key={goods.goods}>
                <GoodsName goods={goods} />
                <RangePlot range={goods.range} scale={scale} />
                <p className="small">
                  <Unbroken>{rangeInWords({ name: goods.name, season: season.season }, goods.range)}</Unbroken>{' '}
                  {fewInWords(goods.range)}
                </p>
              </li>
            ))}
          </ul>
          <RangeTable caption={`Season ${season.season}, for ${FOR_ONE[measure]}`} head="Goods" lines={lines} />
        </>
      )}
      {withheld.length > 0 && <p className="small">Sold, but by or to too few to be shown: {withheld.join(', ')}.</p>}
    </section>
  );
}

function GoodsName({
  goods: { goods, name, scientificName },
}: {
  readonly goods: Pick<GoodsPrices, 'goods' | 'name' | 'scientificName'>;
}) {
  return (
    <h3>
      <a href={`/prices/${encodeURIComponent(goods)}`}>{name}</a>{' '}
      {scientificName && <i className="soft">{scientificName}</i>}
    </h3>
  );
}

import { Unbroken } from '#app/ui/unbroken.tsx';
import type { SeasonPrices } from '#db/queries/season-prices.ts';
import type { Measure } from '#lib/price-table.ts';
import { FOR_ONE, rangeInWords } from '#lib/range-words.ts';
import { RangeTable } from '../range-table.tsx';

const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly Measure[];

/** Each kind in a sentence, then a table for each measure. */
export function SeasonReport({ season: { season, goods: all } }: { readonly season: SeasonPrices }) {
  const shown = all.flatMap(({ goods, name, measure, range }) => (range ? [{ goods, name, measure, range }] : []));
  const withheld = all.filter(({ range }) => range === null).map(({ name }) => name);
  return (
    <section className="sheet" aria-label="Each kind in a sentence">
      <ul className="report-words">
        {shown.map(({ goods, name, measure, range }) => (
          <li key={`${goods} ${measure}`}>
            <Unbroken>{rangeInWords({ name, season }, range)}</Unbroken>
          </li>
        ))}
      </ul>
      {MEASURES.map((measure) => {
        const lines = shown
          .filter((one) => one.measure === measure)
          .map(({ goods, name, range }) => ({ key: goods, name, range }));
        const caption = `Season ${season}, for ${FOR_ONE[measure]}`;
        return lines.length > 0 && <RangeTable key={measure} caption={caption} head="Goods" lines={lines} />;
      })}
      {withheld.length > 0 && <p className="small">Sold, but by or to too few to be shown: {withheld.join(', ')}.</p>}
    </section>
  );
}

import type { GoodsPrices, SeasonPrices } from '#db/queries/season-prices.ts';
import { nameNone, type PartPath, partAt } from '#lib/part-path.ts';
import type { PriceRange } from '#lib/price-range.ts';
import type { Measure } from '#lib/price-table.ts';

export interface GoodsYear {
  readonly season: SeasonPrices;
  readonly prices: GoodsPrices;
  /** Of the whole, or of the part that is looked at; null where it is withheld. */
  readonly range: PriceRange | null;
}

export interface GoodsHistory {
  readonly name: string;
  readonly scientificName: string;
  readonly measure: Measure;
  /** Newest first. */
  readonly years: readonly GoodsYear[];
}

/** What one kind of goods, or one part of it, brought in each season, once for each measure by which it was sold. */
export function historyOf(seasons: readonly SeasonPrices[], code: string, path: PartPath): GoodsHistory[] {
  const years = seasons.flatMap((season) =>
    season.of(code).map((prices) => {
      const range = nameNone(path) ? prices.range : (partAt(prices.parts, path)?.range ?? null);
      return { season, prices, range };
    }),
  );
  const measures = [...new Set(years.map(({ prices }) => prices.measure))];
  return measures.flatMap((measure) => {
    const own = years.filter(({ prices }) => prices.measure === measure);
    const [newest] = own;
    return newest
      ? [{ name: newest.prices.name, scientificName: newest.prices.scientificName, measure, years: own }]
      : [];
  });
}

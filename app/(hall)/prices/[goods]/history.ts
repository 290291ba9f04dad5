import type { GoodsPrices, SeasonPrices } from '#db/queries/season-prices.ts';
import type { Measure } from '#lib/price-table.ts';

export interface GoodsYear {
  readonly season: SeasonPrices;
  readonly prices: GoodsPrices;
}

export interface GoodsHistory {
  readonly name: string;
  readonly scientificName: string;
  readonly measure: Measure;
  /** Newest first. */
  readonly years: readonly GoodsYear[];
}

/** What one kind of goods brought in each season, once for each measure by which it was sold. */
export function historyOf(seasons: readonly SeasonPrices[], code: string): GoodsHistory[] {
  const years = seasons.flatMap((season) => season.of(code).map((prices) => ({ season, prices })));
  const measures = [...new Set(years.map(({ prices }) => prices.measure))];
  return measures.flatMap((measure) => {
    const own = years.filter(({ prices }) => prices.measure === measure);
    const [newest] = own;
    return newest
      ? [{ name: newest.prices.name, scientificName: newest.prices.scientificName, measure, years: own }]
      : [];
  });
}

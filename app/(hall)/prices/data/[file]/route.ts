import { pricesContext } from '#app/(hall)/prices/prices-context.ts';
import { CSV_TYPE, notFoundProblem } from '#app/server/responses.ts';
import { csvText } from '#db/exchange/csv.ts';
import type { SeasonPrices } from '#db/price/season-prices.ts';
import { PRICE_FIELDS, priceDataPackage, priceDataRows, withoutFormulas } from '#lib/price/data.ts';

/** `2025-26.csv`, `2025-26.json`, and `datapackage.json`, which describes the former. */
export async function GET(_: Request, { params }: { params: Promise<{ file: string }> }): Promise<Response> {
  const file = decodeURIComponent((await params).file);
  const { association, seasons } = await pricesContext();
  if (file === 'datapackage.json') {
    const currency = seasons[0]?.currency ?? '';
    return Response.json(priceDataPackage({ association, currency, seasons: seasons.map(({ season }) => season) }));
  }
  const season = seasons.find((one) => file === `${one.season}.csv` || file === `${one.season}.json`);
  if (!season) return notFoundProblem('There are no prices under this name: look at /prices.');
  return file.endsWith('.csv') ? csvOf(season) : Response.json(objectsOf(season));
}

/** The text of a season lives as long as its prices: a newer one is another season object. */
const texts = new WeakMap<SeasonPrices, string>();

function csvOf(season: SeasonPrices): Response {
  const columns = PRICE_FIELDS.map(({ name }) => name);
  const text = texts.get(season) ?? csvText(columns, priceDataRows(season.season, season.goods).map(withoutFormulas));
  texts.set(season, text);
  return new Response(text, { headers: { 'content-type': CSV_TYPE } });
}

/** Amounts stay decimal text, so that no reader makes a binary fraction of a cent. */
function objectsOf({ season, goods, sales, currency, fewest }: SeasonPrices): object {
  const rows = priceDataRows(season, goods).map((row) =>
    Object.fromEntries(PRICE_FIELDS.map(({ name, type }, at) => [name, jsonValue(type, row[at] ?? '')])),
  );
  return { season, currency, fewest, sales, rows };
}

function jsonValue(type: string, cell: string): string | number | boolean {
  if (type === 'integer') return Number.parseInt(cell, 10);
  return type === 'boolean' ? cell === 'true' : cell;
}

/** The price ranges of a season as rows of open data, and what each column means (Table Schema, Data Package 2.0). */
import { formatMoney } from '#lib/money/money.ts';
import { withoutFormula } from '#lib/result/text.ts';
import { type GoodsRange, LEVELS, type RangePart } from './parts.ts';
import { type PriceRange, unsoldPercent } from './range.ts';
import { valueInWords } from './words.ts';

interface Field {
  readonly name: string;
  readonly type: 'string' | 'integer' | 'number' | 'boolean';
  readonly description: string;
  readonly constraints?: Readonly<Record<string, unknown>>;
}

function field(type: Field['type']) {
  return (name: string, description: string, constraints: Field['constraints'] = { required: true }): Field => {
    return { name, type, description, constraints };
  };
}

const text = field('string');
const figure = field('number');
const whole = field('integer');
const oneOf = (...words: readonly string[]) => ({ required: true, enum: words });

export const PRICE_FIELDS: readonly Field[] = [
  text('season', 'The season of the sales.'),
  text('goods', 'The code of the goods.'),
  { name: 'name', type: 'string', description: 'What the goods are called.' },
  text('measure', 'What a price is for: one piece, one pound or one ounce.', oneOf('piece', 'lb', 'oz')),
  text(
    'covers',
    'What the row is of: the whole of the goods, or a part by section, size, grade or form.',
    oneOf('goods', ...LEVELS),
  ),
  text('part', 'The values from the section down, with " / " between; merged values have " + " between.'),
  text(
    'source',
    'Where the figures are from: the lots of the sales, or the rows of a plain price list.',
    oneOf('sales', 'list'),
  ),
  whole('lots', 'Lots sold; of a price list its rows.', { required: true, minimum: 0 }),
  figure('quantity', 'Pieces, or pounds or ounces.'),
  figure('low', 'The lowest price.'),
  figure('p25', 'A quarter of the pieces brought this or less (Hyndman and Fan, type 7).'),
  figure('median', 'The price in the middle (type 7).'),
  figure('p75', 'Three quarters of the pieces brought this or less (type 7).'),
  figure('high', 'The highest price.'),
  figure('average', 'All amounts over all quantities, so that a large lot counts for as much as it holds.'),
  whole('sellers', 'Sellers behind the sold lots; people who sell together count once. Empty for a price list.', {
    minimum: 0,
  }),
  whole('no_sale_percent', 'Of a hundred called lots, those that found no buyer. Empty for a price list.', {
    minimum: 0,
    maximum: 100,
  }),
  field('boolean')('few', 'True where it rests on too little to say much.'),
];

/** One row: text, except that `few` is `true` or `false` and figures are decimal text without a sign. */
export type PriceDataRow = readonly string[];

interface Named extends GoodsRange {
  readonly name: string;
}

/** The rows of a season in the order of `PRICE_FIELDS`; goods that are withheld have none. */
export function priceDataRows(season: string, all: readonly Named[]): PriceDataRow[] {
  return all.flatMap(({ goods, name, measure, range, parts }) => {
    if (range === null) return [];
    const head = [season, goods, name, measure];
    return [[...head, 'goods', 'all', ...figures(range)], ...partRows(parts, head, [])];
  });
}

function partRows(parts: readonly RangePart[], head: readonly string[], above: readonly string[]): PriceDataRow[] {
  return parts.flatMap(({ level, values, range, parts: within }) => {
    const path = [...above, values.map((value) => valueInWords(level, value) || `no ${level}`).join(' + ')];
    return [[...head, level, path.join(' / '), ...figures(range)], ...partRows(within, head, path)];
  });
}

function figures(range: PriceRange): string[] {
  const { lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents } = range;
  const prices = [lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents].map(formatMoney);
  return [
    range.sellers === null ? 'list' : 'sales',
    String(range.lots),
    range.quantity,
    ...prices,
    String(range.sellers ?? ''),
    String(unsoldPercent(range) ?? ''),
    String(range.few),
  ];
}

/** A row for a spreadsheet: a text that it would take for a formula is marked as text. Figures are left as they are. */
export function withoutFormulas(row: PriceDataRow): string[] {
  return row.map((cell, at) => (PRICE_FIELDS[at]?.type === 'string' ? withoutFormula(cell) : cell));
}

interface Described {
  readonly association: string;
  readonly currency: string;
  readonly seasons: readonly string[];
}

/** A Data Package descriptor (version 2.0) with one table a season, all by the same Table Schema. */
export function priceDataPackage({ association, currency, seasons }: Described): object {
  const about = 'Hammer prices before commission and fees. What goods brought, never what they will bring.';
  return {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: 'fur-auction-prices',
    title: `What goods brought at the sales of ${association}`,
    description: `${about} Amounts are in ${currency}.`,
    resources: seasons.map((season) => ({
      name: `prices-${resourceName(season)}`,
      type: 'table',
      title: `Season ${season}`,
      path: `${encodeURIComponent(season)}.csv`,
      format: 'csv',
      mediatype: 'text/csv',
      encoding: 'utf-8',
      schema: {
        $schema: 'https://datapackage.org/profiles/2.0/tableschema.json',
        fields: PRICE_FIELDS,
        missingValues: [''],
        primaryKey: ['season', 'goods', 'measure', 'covers', 'part'],
      },
    })),
  };
}

function resourceName(season: string): string {
  return season.toLowerCase().replace(/[^a-z0-9._-]+/g, '-');
}

/** The price ranges of a season as rows of open data, and what each column means (Table Schema, Data Package 2.0). */
import { formatMoney } from '#lib/money/money.ts';
import { withoutFormula } from '#lib/result/text.ts';
import type { GoodsRange, RangePart } from './parts.ts';
import { type PriceRange, unsoldPercent } from './range.ts';
import { valueInWords } from './words.ts';

type FieldType = 'string' | 'integer' | 'number' | 'boolean';

interface Field {
  readonly name: string;
  readonly type: FieldType;
  readonly description: string;
  readonly constraints?: Readonly<Record<string, unknown>>;
}

const REQUIRED = { required: true };
const price = (name: string, description: string): Field => ({
  name,
  type: 'number',
  description,
  constraints: REQUIRED,
});
const whole = (name: string, description: string): Field => ({
  name,
  type: 'integer',
  description,
  constraints: { required: true, minimum: 0 },
});
const text = (name: string, description: string): Field => ({ name, type: 'string', description });

export const PRICE_FIELDS: readonly Field[] = [
  { ...text('season', 'The season of the sales.'), constraints: REQUIRED },
  { ...text('goods', 'The code of the goods.'), constraints: REQUIRED },
  text('name', 'What the goods are called.'),
  {
    ...text('measure', 'What a price is for: one piece, one pound or one ounce.'),
    constraints: { required: true, enum: ['piece', 'lb', 'oz'] },
  },
  {
    ...text('covers', 'What the row is of: the whole of the goods, or a part by section, size, grade or form.'),
    constraints: { required: true, enum: ['goods', 'section', 'size', 'grade', 'form'] },
  },
  {
    ...text('part', 'The values from the section down, with " / " between; merged values have " + " between.'),
    constraints: REQUIRED,
  },
  {
    ...text('source', 'Where the figures are from: the lots of the sales, or the rows of a plain price list.'),
    constraints: { required: true, enum: ['sales', 'list'] },
  },
  whole('lots', 'Lots sold; of a price list its rows.'),
  price('quantity', 'Pieces, or pounds or ounces.'),
  price('low', 'The lowest price.'),
  price('p25', 'A quarter of the pieces brought this or less (Hyndman and Fan, type 7).'),
  price('median', 'The price in the middle (type 7).'),
  price('p75', 'Three quarters of the pieces brought this or less (type 7).'),
  price('high', 'The highest price.'),
  price('average', 'All amounts over all quantities, so that a large lot counts for as much as it holds.'),
  {
    ...whole('sellers', 'Sellers behind the sold lots; people who sell together count once. Empty for a price list.'),
    constraints: { minimum: 0 },
  },
  {
    ...whole('no_sale_percent', 'Of a hundred called lots, those that found no buyer. Empty for a price list.'),
    constraints: { minimum: 0, maximum: 100 },
  },
  {
    name: 'few',
    type: 'boolean',
    description: 'True where it rests on too little to say much.',
    constraints: REQUIRED,
  },
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

/** The price report: a page for the newsletter of what goods brought in a season. */
import { showMoney } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListCell, type ListPaper, type ListTable, listPaper } from '#lib/paper/list.ts';
import { dateInWords, listed } from '#lib/settlement/spelling.ts';
import type { GoodsRange } from './parts.ts';
import { unsoldPercent } from './range.ts';
import type { Measure } from './table.ts';
import { count, FOR_ONE, fewInWords, quantityWords } from './words.ts';

export interface ReportSeason {
  readonly season: string;
  readonly currency: string;
  readonly fewest: number;
  readonly sales: readonly { readonly name: string; readonly heldOn: string; readonly running: boolean }[];
  readonly goods: readonly (GoodsRange & { readonly name: string })[];
}

const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly Measure[];

/** The finished paper; `before` is the season before it, whose medians stand beside. */
export function priceReport(context: PaperContext, season: ReportSeason, before: ReportSeason | null): ListPaper {
  return listPaper(context, {
    title: `What goods brought, season ${season.season}`,
    opening: [...season.sales.map(saleInWords), `Hammer prices in ${season.currency}, before commission and fees.`],
    tables: MEASURES.flatMap((measure) => tableOf(measure, season, before)),
    remarks: remarksOf(season),
  });
}

function saleInWords({ name, heldOn, running }: ReportSeason['sales'][number]): string {
  return `${name}, ${dateInWords(heldOn)}${running ? ': still going on, only what has been called is counted' : ''}.`;
}

function tableOf(measure: Measure, season: ReportSeason, before: ReportSeason | null): ListTable[] {
  const shown = season.goods.filter((goods) => goods.measure === measure && goods.range !== null);
  if (shown.length === 0) return [];
  const figure = (words: string) => ({ kind: 'figure' as const, words });
  return [
    {
      title: `For ${FOR_ONE[measure]}`,
      columns: [
        { kind: 'goods', words: 'Goods' },
        { kind: 'quantity', words: 'Sold' },
        ...['Low', 'Quarter', 'Median', 'Three quarters', 'High', 'Average'].map(figure),
        { kind: 'number', words: 'No-sale %' },
      ],
      rows: shown.map((goods) => rowOf(goods, before)),
      none: '',
      sum: '',
    },
  ];
}

function rowOf(
  { goods, name, measure, range }: ReportSeason['goods'][number],
  before: ReportSeason | null,
): ListCell[] {
  if (range === null) return [];
  const earlier = before?.goods.find((one) => one.goods === goods && one.measure === measure)?.range;
  const fine = earlier && before ? `${before.season}: median ${showMoney(earlier.medianCents)}` : '';
  const { lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents } = range;
  const prices = [lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents];
  return [
    cell(name, fine, fewInWords(range)),
    cell(quantityWords(range), count(range.lots, 'lot')),
    ...prices.map((price) => cell(showMoney(price))),
    cell(String(unsoldPercent(range) ?? '')),
  ];
}

function remarksOf({ goods, fewest }: ReportSeason): string[] {
  const withheld = goods.filter(({ range }) => range === null).map(({ name }) => name);
  const left = `Sold, but by or to too few to be shown: ${listed(withheld)}.`;
  return [
    'A quarter of the pieces brought the price under “Quarter” or less, half of them the median or less.',
    ...(withheld.length > 0 ? [left] : []),
    `Nothing is shown of which fewer than ${fewest} sellers or ${fewest} buyers had a part.`,
    'This is what goods brought, not what they will bring.',
  ];
}

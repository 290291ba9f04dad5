/** The price report: a page for the newsletter of what goods brought in a season. */
import { longDate } from '#lib/date/date.ts';
import { showMoney } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, tableOf } from '#lib/paper/list.ts';
import { countWords } from '#lib/result/text.ts';
import { listed } from '#lib/settlement/spelling.ts';
import type { GoodsRange } from './parts.ts';
import { type PriceRange, unsoldPercent } from './range.ts';
import type { PriceMeasure } from './table.ts';
import { FOR_ONE, fewInWords, quantityWords } from './words.ts';

export interface ReportSeason {
  readonly season: string;
  readonly currency: string;
  readonly fewest: number;
  readonly sales: readonly { readonly name: string; readonly heldOn: string; readonly running: boolean }[];
  readonly goods: readonly (GoodsRange & { readonly name: string })[];
}

const MEASURES = ['piece', 'lb', 'oz'] as const satisfies readonly PriceMeasure[];

/** The finished paper; `before` is the season before it, whose medians stand beside. */
export function priceReport(context: PaperContext, season: ReportSeason, before: ReportSeason | null): ListPaper {
  return listPaper(context, {
    title: `What goods brought, season ${season.season}`,
    opening: [...season.sales.map(saleInWords), `Hammer prices in ${season.currency}, before commission and fees.`],
    tables: MEASURES.flatMap((measure) => measureTable(measure, season, before)),
    remarks: remarksOf(season),
  });
}

function saleInWords({ name, heldOn, running }: ReportSeason['sales'][number]): string {
  return `${name}, ${longDate(heldOn)}${running ? ': still going on, only what has been called is counted' : ''}.`;
}

type Shown = ReportSeason['goods'][number] & { readonly range: PriceRange };

function measureTable(measure: PriceMeasure, season: ReportSeason, before: ReportSeason | null): ListTable[] {
  const shown = season.goods.filter((one): one is Shown => one.measure === measure && one.range !== null);
  if (shown.length === 0) return [];
  const fine = ({ goods }: Shown) => {
    const earlier = before?.goods.find((one) => one.goods === goods && one.measure === measure)?.range;
    return earlier && before ? `${before.season}: median ${showMoney(earlier.medianCents)}` : '';
  };
  const table = tableOf<Shown>(
    shown,
    [
      ['goods', 'Goods', (row) => cell(row.name, fine(row), fewInWords(row.range))],
      ['quantity', 'Sold', ({ range }) => cell(quantityWords(range), countWords(range.lots, 'lot'))],
      ['figure', 'Low', ({ range }) => showMoney(range.lowCents)],
      ['figure', 'Quarter', ({ range }) => showMoney(range.p25Cents)],
      ['figure', 'Median', ({ range }) => showMoney(range.medianCents)],
      ['figure', 'Three quarters', ({ range }) => showMoney(range.p75Cents)],
      ['figure', 'High', ({ range }) => showMoney(range.highCents)],
      ['figure', 'Average', ({ range }) => showMoney(range.averageCents)],
      ['number', 'No-sale %', ({ range }) => String(unsoldPercent(range) ?? '')],
    ],
    { title: `For ${FOR_ONE[measure]}` },
  );
  return [table];
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

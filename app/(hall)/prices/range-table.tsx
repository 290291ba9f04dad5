import './range-table.css';
import type { ReactNode } from 'react';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import { type Cents, showMoney } from '#lib/money/money.ts';
import type { Scale } from '#lib/price/plot.ts';
import { type PriceRange, unsoldPercent } from '#lib/price/range.ts';
import { quantityWords } from '#lib/price/words.ts';

export interface RangeLine {
  readonly key: string;
  readonly name: string;
  /** Where the line alone is looked at. */
  readonly href?: string;
  /** How deep it stands under the line above it. */
  readonly depth?: number;
  /** Null where it is withheld. */
  readonly range: PriceRange | null;
}

interface TableProps {
  readonly caption: string;
  readonly head: string;
  readonly lines: readonly RangeLine[];
  /** What is said where a line has no range. */
  readonly empty?: string | undefined;
}

const PRICES = [
  ['lowCents', 'Low'],
  ['p25Cents', 'Quarter'],
  ['medianCents', 'Median'],
  ['p75Cents', 'Three quarters'],
  ['highCents', 'High'],
  ['averageCents', 'Average'],
] as const;

const HEADS = ['Sold', 'Lots', ...PRICES.map(([, head]) => head), 'Sellers', 'No-sale'];

const WITHHELD = 'Too few sellers or buyers to show.';

/** The figures of the plots. On a phone each line is a slip of its own, with the heads beside its figures. */
export function RangeTable({ caption, head, lines, empty = WITHHELD }: TableProps) {
  return (
    <ScrollRegion className="range-scroll scroll-x slips-room" label={caption}>
      <table className="range-table slips ranges">
        <caption>{caption}</caption>
        <ColumnHeads words={[head]} figures={HEADS} />
        <tbody>
          {lines.map(({ key, name, href, depth = 0, range }) => (
            <tr key={key}>
              <th scope="row" data-depth={depth}>
                {href === undefined ? name : <a href={href}>{name}</a>}
              </th>
              {range ? <Figures range={range} /> : <td colSpan={10}>{empty}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

function Figures({ range }: { readonly range: PriceRange }) {
  const unsold = unsoldPercent(range);
  return (
    <>
      <Figure head="Sold">
        {quantityWords(range)}
        {range.few && ' (few)'}
      </Figure>
      <Figure head="Lots">{range.lots}</Figure>
      {PRICES.map(([key, head]) => (
        <Amount key={key} head={head} cents={range[key]} />
      ))}
      <Figure head="Sellers">{range.sellers ?? 'not known'}</Figure>
      <Figure head="No-sale">{unsold === null ? 'not known' : `${unsold} %`}</Figure>
    </>
  );
}

/** A figure of a line; on a phone, where each line is a slip of its own, it says its head. */
export function Figure({ head, children }: { readonly head: string; readonly children: ReactNode }) {
  return (
    <td className="figure" data-head={head}>
      {children}
    </td>
  );
}

/** The same for an amount of money, empty where there is none. */
export function Amount({ head, cents }: { readonly head: string; readonly cents: Cents | null }) {
  return (
    <td className="money" data-head={head}>
      {cents !== null && showMoney(cents)}
    </td>
  );
}

/** Low to high as a line, the middle half as a bar, the median as a stroke across. The words and the table say the same. */
export function RangePlot({ range, scale }: { readonly range: PriceRange; readonly scale: Scale }) {
  const [low, high] = [scale.at(range.lowCents), scale.at(range.highCents)];
  const [p25, p75] = [scale.at(range.p25Cents), scale.at(range.p75Cents)];
  const median = scale.at(range.medianCents);
  return (
    <svg className="range-plot" viewBox="0 0 1000 28" preserveAspectRatio="none" aria-hidden="true">
      {scale.ticks.map(({ at }) => (
        <line key={at} className="range-tick" x1={at} x2={at} y1="0" y2="28" />
      ))}
      <line className="range-line" x1={low} x2={high} y1="14" y2="14" />
      <line className="range-end" x1={low} x2={low} y1="7" y2="21" />
      <line className="range-end" x1={high} x2={high} y1="7" y2="21" />
      <line className="range-half" x1={p25} x2={p75} y1="14" y2="14" />
      <line className="range-gap" x1={median} x2={median} y1="3" y2="25" />
      <line className="range-median" x1={median} x2={median} y1="3" y2="25" />
    </svg>
  );
}

/** The prices that the ticks of every plot beside it stand for. */
export function PlotScale({ scale }: { readonly scale: Scale }) {
  return (
    <div className="range-scale" aria-hidden="true">
      <svg>
        <title>Prices</title>
        {scale.ticks.map(({ cents, at }) => (
          <text key={cents} x={`${at / 10}%`} y="1em">
            {showMoney(cents).replace(/\.00$/, '')}
          </text>
        ))}
      </svg>
    </div>
  );
}

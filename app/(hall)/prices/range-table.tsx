import { showMoney } from '#lib/money.ts';
import { type PriceRange, unsoldPercent } from '#lib/price-range.ts';
import { quantityWords } from '#lib/range-words.ts';

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

const WITHHELD = 'Too few sellers or buyers to show.';

/** The figures of the plots. It scrolls by itself where the screen is narrow, by finger or by arrow keys. */
export function RangeTable({ caption, head, lines, empty = WITHHELD }: TableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A region that scrolls must be reached by keyboard.
    <section className="range-scroll" tabIndex={0} aria-label={caption}>
      <table className="range-table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{head}</th>
            {[
              'Sold',
              'Lots',
              'Low',
              'Quarter',
              'Median',
              'Three quarters',
              'High',
              'Average',
              'Sellers',
              'No-sale',
            ].map((name) => (
              <th key={name} scope="col" className="figure">
                {name}
              </th>
            ))}
          </tr>
        </thead>
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
    </section>
  );
}

function Figures({ range }: { readonly range: PriceRange }) {
  const { lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents } = range;
  const prices = { lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents };
  const unsold = unsoldPercent(range);
  return (
    <>
      <td className="figure">
        {quantityWords(range)}
        {range.few && ' (few)'}
      </td>
      <td className="figure">{range.lots}</td>
      {Object.entries(prices).map(([key, price]) => (
        <td key={key} className="money">
          {showMoney(price)}
        </td>
      ))}
      <td className="figure">{range.sellers ?? 'not known'}</td>
      <td className="figure">{unsold === null ? 'not known' : `${unsold} %`}</td>
    </>
  );
}

import { showMoney } from '#lib/money.ts';
import { type PriceRange, unsoldPercent } from '#lib/price-range.ts';
import { quantityWords } from '#lib/range-words.ts';
import './range-table.css';

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

const HEADS = {
  ...{ sold: 'Sold', lots: 'Lots', lowCents: 'Low', p25Cents: 'Quarter', medianCents: 'Median' },
  ...{ p75Cents: 'Three quarters', highCents: 'High', averageCents: 'Average', sellers: 'Sellers', unsold: 'No-sale' },
} as const;

const PRICES = ['lowCents', 'p25Cents', 'medianCents', 'p75Cents', 'highCents', 'averageCents'] as const;

const WITHHELD = 'Too few sellers or buyers to show.';

/** The figures of the plots. On a phone each line is a slip of its own, with the heads beside its figures. */
export function RangeTable({ caption, head, lines, empty = WITHHELD }: TableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A region that scrolls must be reached by keyboard.
    <section className="range-scroll scroll-x slips-room" tabIndex={0} aria-label={caption}>
      <table className="range-table slips ranges">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{head}</th>
            {Object.values(HEADS).map((name) => (
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
  const unsold = unsoldPercent(range);
  return (
    <>
      <td className="figure" data-head={HEADS.sold}>
        {quantityWords(range)}
        {range.few && ' (few)'}
      </td>
      <td className="figure" data-head={HEADS.lots}>
        {range.lots}
      </td>
      {PRICES.map((key) => (
        <td key={key} className="money" data-head={HEADS[key]}>
          {showMoney(range[key])}
        </td>
      ))}
      <td className="figure" data-head={HEADS.sellers}>
        {range.sellers ?? 'not known'}
      </td>
      <td className="figure" data-head={HEADS.unsold}>
        {unsold === null ? 'not known' : `${unsold} %`}
      </td>
    </>
  );
}

import { showMoney } from '#lib/money.ts';
import type { PriceRange } from '#lib/price-range.ts';
import type { Scale } from '#lib/range-plot.ts';

interface PlotProps {
  readonly range: PriceRange;
  readonly scale: Scale;
}

/** Low to high as a line, the middle half as a bar, the median as a stroke across. The words and the table say the same. */
export function RangePlot({ range, scale }: PlotProps) {
  const [low, p25, median, p75, high] = [
    range.lowCents,
    range.p25Cents,
    range.medianCents,
    range.p75Cents,
    range.highCents,
  ].map(scale.at) as [number, number, number, number, number];
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

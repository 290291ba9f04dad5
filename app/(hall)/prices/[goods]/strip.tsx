import { Unbroken } from '#app/ui/unbroken.tsx';
import { evenScale } from '#lib/range-plot.ts';
import { FOR_ONE, fewInWords, rangeInWords } from '#lib/range-words.ts';
import { dateInWords } from '#lib/sheet/spell.ts';
import { PlotScale, RangePlot } from '../range-plot.tsx';
import { RangeTable } from '../range-table.tsx';
import type { GoodsHistory, GoodsYear } from './history.ts';

const NOT_APART = 'Not sold, or shown only together with others.';

interface StripProps {
  readonly history: GoodsHistory;
  /** The part that is looked at, in words; empty where it is the whole. */
  readonly part: string;
  /** The season that is put into words; the newest where it is none of them. */
  readonly season: string;
}

/** The seasons under one another on one scale, with the table of the same figures. */
export function Strip({ history: { measure, years, ...history }, part, season: named }: StripProps) {
  const name = part === '' ? history.name : `${history.name} (${part})`;
  const shown = years.flatMap(({ season, range }) => (range ? [{ season, range }] : []));
  const scale = evenScale(shown.flatMap(({ range }) => [range.highCents]));
  const spoken = shown.find(({ season }) => season.season === named) ?? shown[0];
  const lines = years.map((year) => ({ key: year.season.season, name: seasonLine(year), range: year.range }));
  return (
    <>
      <h2 id={`seasons-${measure}`}>For {FOR_ONE[measure]}, season by season</h2>
      {spoken && (
        <>
          <p>
            <strong>
              <Unbroken>{rangeInWords({ name, season: spoken.season.season }, spoken.range)}</Unbroken>
            </strong>{' '}
            {fewInWords(spoken.range)}
          </p>
          <PlotScale scale={scale} />
          <ul className="strip">
            {shown.map(({ season, range }) => (
              <li key={season.season}>
                <span>{season.season}</span>
                <RangePlot range={range} scale={scale} />
              </li>
            ))}
          </ul>
        </>
      )}
      <RangeTable
        caption={`${name} by season, for ${FOR_ONE[measure]}`}
        head="Season and sales"
        lines={lines}
        empty={part === '' ? undefined : NOT_APART}
      />
    </>
  );
}

function seasonLine({ season: { season, sales } }: GoodsYear): string {
  if (sales.length === 0) return `${season} (from a price list)`;
  const held = sales.map(
    ({ name, heldOn, running }) => `${name}, ${dateInWords(heldOn)}${running ? ', still going on' : ''}`,
  );
  return `${season} (${held.join('; ')})`;
}

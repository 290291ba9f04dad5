import type { RangePart } from '#lib/range-parts.ts';
import { FOR_ONE, partInWords } from '#lib/range-words.ts';
import { type RangeLine, RangeTable } from '../range-table.tsx';
import type { GoodsHistory } from './history.ts';

interface PartsProps {
  readonly history: GoodsHistory;
  /** A season, or `every`. */
  readonly shown: string;
}

/** A season by section, size, grade and form, as far as each is broad enough to be shown; or every season so. */
export function Parts({ history: { name, measure, years }, shown }: PartsProps) {
  return years
    .filter(({ season: { season } }) => shown === 'every' || season === shown)
    .map(({ season: { season, sales }, prices }) => {
      const lines = linesOf(prices.parts, '', 0);
      if (lines.length === 0) return null;
      const ground = sales.length === 0 ? ' (from a price list)' : '';
      const caption = `${name} in season ${season}${ground} by section, size, grade and form, for ${FOR_ONE[measure]}`;
      return <RangeTable key={season} caption={caption} head="Part" lines={lines} />;
    });
}

/** A part that is all there is above it adds nothing and gives its place to its own parts. */
function linesOf(parts: readonly RangePart[], above: string, depth: number): RangeLine[] {
  const [only, ...others] = parts;
  if (only && others.length === 0) return linesOf(only.parts, above, depth);
  return parts.flatMap((part) => {
    const key = `${above}/${part.level}:${part.value === null ? 'together' : `=${part.value}`}`;
    return [{ key, name: partInWords(part), depth, range: part.range }, ...linesOf(part.parts, key, depth + 1)];
  });
}

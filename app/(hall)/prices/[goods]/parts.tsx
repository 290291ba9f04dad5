import type { RangePart } from '#lib/range-parts.ts';
import { FOR_ONE, partInWords } from '#lib/range-words.ts';
import { type RangeLine, RangeTable } from '../range-table.tsx';
import type { GoodsHistory } from './history.ts';

/** The newest season by section, size and grade, as far as each is broad enough to be shown. */
export function Parts({ history: { name, measure, years } }: { readonly history: GoodsHistory }) {
  const [newest] = years;
  const lines = linesOf(newest?.prices.parts ?? [], '', 0);
  if (!newest || lines.length === 0) return null;
  const { season } = newest.season;
  const caption = `${name} in season ${season} by section, size and grade, for ${FOR_ONE[measure]}`;
  return <RangeTable caption={caption} head="Part" lines={lines} />;
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

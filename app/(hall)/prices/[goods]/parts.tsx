import type { PartPath } from '#lib/part-path.ts';
import type { RangePart } from '#lib/range-parts.ts';
import { FOR_ONE, partInWords } from '#lib/range-words.ts';
import { type RangeLine, RangeTable } from '../range-table.tsx';
import { addressOf } from './address.ts';
import type { GoodsHistory } from './history.ts';

interface PartsProps {
  readonly code: string;
  readonly history: GoodsHistory;
  readonly season: string;
}

/** A season by section, size, grade and form, as far as each is broad enough; each leads to itself over the seasons. */
export function Parts({ code, history: { name, measure, years }, season: shown }: PartsProps) {
  const year = years.find(({ season }) => season.season === shown);
  const lines = linesOf(year?.prices.parts ?? [], { code, path: {}, depth: 0 });
  if (lines.length === 0) return null;
  const ground = year?.season.sales.length === 0 ? ' (from a price list)' : '';
  const caption = `${name} in season ${shown}${ground} by section, size, grade and form, for ${FOR_ONE[measure]}`;
  return <RangeTable caption={caption} head="Part" lines={lines} />;
}

interface Above {
  readonly code: string;
  readonly path: PartPath;
  readonly depth: number;
}

/** A part that is all there is above it adds nothing and gives its place to its own parts. */
function linesOf(parts: readonly RangePart[], { code, path, depth }: Above): RangeLine[] {
  const [only, ...others] = parts;
  if (only && others.length === 0) return linesOf(only.parts, { code, path, depth });
  return parts.flatMap((part) => {
    const named = { name: partInWords(part), depth, range: part.range };
    if (part.value === null) return [{ key: `${addressOf(code, path)} ${part.level}`, ...named }];
    const own = { ...path, [part.level]: part.value };
    const href = addressOf(code, own);
    return [{ key: href, href, ...named }, ...linesOf(part.parts, { code, path: own, depth: depth + 1 })];
  });
}

import type { PartPath } from '#lib/part-path.ts';
import { LEVELS } from '#lib/range-parts.ts';

/** Where a kind of goods, or a part of it, is looked at over the seasons: `/prices/raccoon?section=east&size=L`. */
export function addressOf(code: string, path: PartPath = {}): string {
  const words = new URLSearchParams(
    LEVELS.flatMap((level) => (path[level] === undefined ? [] : [[level, path[level]]])),
  );
  return `/prices/${encodeURIComponent(code)}${words.size > 0 ? `?${words}` : ''}`;
}

/** The part that an address names. */
export function pathOf(words: Record<string, string | string[] | undefined>): PartPath {
  return Object.fromEntries(
    LEVELS.flatMap((level) => (typeof words[level] === 'string' ? [[level, words[level].slice(0, 80)]] : [])),
  );
}

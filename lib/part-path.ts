/** One part of goods named by its values, such as section east and size L, and found again in other seasons. */
import { LEVELS, type Level, type RangePart } from '#lib/range-parts.ts';
import { partInWords } from '#lib/range-words.ts';

export type PartPath = Partial<Readonly<Record<Level, string>>>;

/**
 * The part that holds the lots of these values and no others, or null where the season shows none: where it has none,
 * or where its values went together with others. A level at which all lots are alike tells nothing apart, so it may be
 * named or not.
 */
export function partAt(parts: readonly RangePart[], asked: PartPath): RangePart | null {
  const { [parts[0]?.level ?? 'section']: value, ...behind } = asked;
  if (value === undefined && (parts.length > 1 || nameNone(asked))) return null;
  const part = value === undefined ? parts[0] : parts.find((one) => one.value === value);
  if (part === undefined || part.value === null) return null;
  return nameNone(behind) ? part : partAt(part.parts, behind);
}

export function nameNone(path: PartPath): boolean {
  return Object.keys(path).length === 0;
}

/** `section east, size L`. */
export function pathInWords(path: PartPath): string {
  return LEVELS.flatMap((level) => {
    const value = path[level];
    return value === undefined ? [] : [partInWords({ level, value, values: [value] })];
  }).join(', ');
}

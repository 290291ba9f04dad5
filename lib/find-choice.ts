/** Finding one of a few choices by the letters somebody types at the table: goods, sizes, grades, sections. */
import { foldName } from '#lib/fold.ts';

/** Lower comes first. Undefined where the choice does not fit what was typed. */
function rank(folded: string, typed: string): number | undefined {
  if (folded === typed) return 0;
  if (folded.startsWith(typed)) return 1;
  if (folded.split(/[\s,-]+/).some((word) => word.startsWith(typed))) return 2;
  return folded.includes(typed) ? 3 : undefined;
}

/**
 * The choices that fit what was typed: the same text first, then those that begin with it, those with a word that
 * begins with it, those that hold it. Everything in its own order where nothing was typed.
 */
export function findChoices<T>(typed: string, choices: readonly T[], nameOf: (choice: T) => string): T[] {
  const wanted = foldName(typed);
  if (wanted === '') return [...choices];
  return choices
    .map((choice) => ({ choice, rank: rank(foldName(nameOf(choice)), wanted) }))
    .filter((found): found is { choice: T; rank: number } => found.rank !== undefined)
    .sort((a, b) => a.rank - b.rank)
    .map(({ choice }) => choice);
}

/** The same for short lists of words, where a digit that begins no word stands for the word at that place: `2` is II. */
export function findWords(typed: string, words: readonly string[]): string[] {
  const wanted = foldName(typed);
  const fitting = findChoices(typed, words, (word) => word).filter((word) => foldName(word).startsWith(wanted));
  if (fitting.length > 0 || !/^[1-9]$/.test(wanted)) return fitting;
  return words.slice(Number.parseInt(wanted, 10) - 1, Number.parseInt(wanted, 10));
}

/** How many lines words take in a column, by the widths of the typeface's letters, guessed from above. */

// In parts of the size of type: the widest letter of each group in DejaVu Sans Condensed.
const WIDTHS = [
  [/[ijlIJ ,./:;|'’]/, 0.3],
  [/[-f()[\]t!r·]/, 0.37],
  [/[sczkLxvyFP]/, 0.54],
  [/[a-z\d]/, 0.57],
  [/[A-Z]/, 0.71],
] as const;
const WIDEST = 0.9;
const WIDE = /[mwMW%@]/;
/** A letter of another script, or with a mark. */
const OTHER = 0.75;
const SPACE = 0.29;

interface Room {
  readonly size: number;
  /** In points, like the size. */
  readonly room: number;
}

/** At least one: an empty cell keeps its line. */
export function linesOf(text: string, { size, room }: Room): number {
  const ems = room / size;
  let [lines, at] = [1, 0];
  for (const word of text.split(' ')) {
    const width = widthOf(word);
    const fits = at === 0 || at + SPACE + width <= ems;
    lines += fits ? 0 : 1;
    // A word that is longer than its column is divided.
    lines += Math.max(0, Math.ceil(width / ems) - 1);
    at = fits && at > 0 ? at + SPACE + width : width;
  }
  return lines;
}

function widthOf(word: string): number {
  return [...word].map(letterWidth).reduce((so, one) => so + one, 0);
}

function letterWidth(letter: string): number {
  if (WIDE.test(letter)) return WIDEST;
  return WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? OTHER;
}

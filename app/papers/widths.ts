/** How wide figures are, and how wide their columns become where large amounts would else be set too small. */

// In parts of the size of type: the widest letter of each group in DejaVu Sans Condensed Bold.
const LETTER_WIDTHS = [
  [/[\d$+]/, 0.63],
  [/[,.:;]/, 0.36],
  [/ /, 0.32],
  [/[-/()]/, 0.42],
  [/[mwMW%@]/, 1],
  [/[a-z]/, 0.65],
  [/[A-Z]/, 0.77],
] as const;
const OTHER = 0.8;

/** How wide words are at the most, in parts of their size of type, bold or not. */
export function widthInEms(words: string): number {
  const widths = [...words].map((letter) => LETTER_WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? OTHER);
  return total(widths);
}

export interface FigureColumn {
  /** As wide as the column is for usual amounts, in points. */
  readonly least: number;
  readonly figures: readonly string[];
}

interface Fit {
  readonly size: number;
  /** What keeps a figure from the column before it, in points. */
  readonly apart: number;
  /** What all the columns may take of the line. */
  readonly room: number;
}

/** The widths of columns of figures: as wide as ever, or wider for longer figures, as far as there is room. */
export function widened(columns: readonly FigureColumn[], { size, apart, room }: Fit): number[] {
  const more = columns.map(({ least, figures }) => {
    return Math.max(0, size * Math.max(0, ...figures.map(widthInEms)) + apart - least);
  });
  const spare = Math.max(0, room - total(columns.map(({ least }) => least)));
  const share = Math.min(1, spare / Math.max(1, total(more)));
  return columns.map(({ least }, at) => least + (more[at] ?? 0) * share);
}

function total(numbers: readonly number[]): number {
  return numbers.reduce((so, one) => so + one, 0);
}

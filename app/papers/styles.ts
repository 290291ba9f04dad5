/** The styles of every paper: black on white, thin rules, money to the right. Lengths are points, 72 to the inch. */
import { StyleSheet } from '@react-pdf/renderer';
import { FAMILY } from './fonts.ts';
import { widthInEms } from './widths.ts';

export type PaperSize = 'letter' | 'a4';

/** The renderer's words for the sizes, with their heights: US Letter, and A4 of ISO 216. */
export const SIZES = { letter: { name: 'LETTER', height: 792 }, a4: { name: 'A4', height: 841.89 } } as const;

/** The margin left and right. */
export const SIDE = 36;

/** A size of type with its own leading: a leading that is inherited keeps the height of the size it was set for. */
export function type(fontSize: number, leading = 1.22) {
  return { fontSize, lineHeight: leading };
}

/** The same in bold. */
export function bold(fontSize: number, leading = 1.22) {
  return { ...type(fontSize, leading), fontWeight: 700 } as const;
}

/** The type for a figure that must stay in its column: the size wanted, or a smaller one for a longer figure. */
export function fitted(words: string, { size, width }: { size: number; width: number }) {
  return { fontSize: Math.min(size, width / Math.max(1, widthInEms(words))) };
}

export const paperStyles = StyleSheet.create({
  // No leading here: the renderer applies a leading twice to text that is only known once the pages are counted, and
  // moves it off the paper. The body has one, and what runs on every page goes without.
  page: {
    fontSize: 9,
    fontFamily: FAMILY,
    color: '#000000',
    paddingTop: 40,
    paddingBottom: 48,
    paddingHorizontal: SIDE,
  },
  /** A page on which everything is placed. */
  bare: { fontFamily: FAMILY, color: '#000000' },
  body: type(9),
  row: { flexDirection: 'row' },
  strong: { fontWeight: 700 },
  fine: type(7.5),
  title: { ...bold(10), marginBottom: 2 },
});

/** What a paper comes to, between two rules: its words at the left, the figure large at the right. */
export const result = {
  line: {
    flexDirection: 'row',
    justifyContent: 'space-between',
    alignItems: 'flex-end',
    borderTopWidth: 1.5,
    borderBottomWidth: 1.5,
    paddingTop: 4,
    paddingBottom: 3,
  },
  // Long words take a second line rather than run into the figure.
  label: { ...bold(11), flex: 1, paddingRight: 8 },
  figure: bold(18, 1.1),
} as const;

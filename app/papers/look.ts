/** The look of every paper: black on white, thin rules, money to the right. Lengths are points, 72 to the inch. */
import { StyleSheet } from '@react-pdf/renderer';
import { FAMILY } from './fonts.ts';

export type PaperSize = 'letter' | 'a4';

/** The renderer's words for the sizes, ISO 216 and ANSI/ASME Y14.1. */
export const SIZES = { letter: 'LETTER', a4: 'A4' } as const;

export const SIDE = 36;

export const look = StyleSheet.create({
  page: {
    fontFamily: FAMILY,
    fontSize: 9,
    lineHeight: 1.25,
    color: '#000000',
    paddingTop: 40,
    paddingBottom: 52,
    paddingHorizontal: SIDE,
  },
  row: { flexDirection: 'row' },
  strong: { fontWeight: 700 },
  small: { fontSize: 7.5 },
  right: { textAlign: 'right' },
  title: { fontWeight: 700, fontSize: 10, marginBottom: 2 },
  block: { marginTop: 12 },
});

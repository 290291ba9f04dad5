/**
 * The stock of labels: 30 on a US letter sheet, 2 5/8 by 1 inch each. The dimensions are those published for this
 * common kind of sheet: 3 across and 10 down, 1/2 inch from the top and 3/16 from the side to the first label, 2 3/4
 * inches from one label to the next across and 1 inch down. A point is 1/72 inch, so each of them is exact.
 */
import { firstMistake, type Mistake } from '#lib/mistake.ts';
import { accept, type Result } from '#lib/result.ts';

export const ACROSS = 3;
export const DOWN = 10;
export const LABELS_A_PAGE = ACROSS * DOWN;

const TOP = 36;
const SIDE = 13.5;
const PITCH_ACROSS = 198;
const PITCH_DOWN = 72;
const WIDTH = 189;
const HEIGHT = 72;

/** How far a printer sets off: to the right and down, in tenths of a millimetre, negative for left and up. */
export interface Offset {
  readonly rightTenthsMm: number;
  readonly downTenthsMm: number;
}

export const NO_OFFSET: Offset = { rightTenthsMm: 0, downTenthsMm: 0 };

/** Where one label is on its page, in points from the top left. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The place of label 1 to 30 of a page, counted across and then down, moved by the printer's offset. */
export function labelSpot(label: number, { rightTenthsMm, downTenthsMm }: Offset): Spot {
  if (!Number.isInteger(label) || label < 1 || label > LABELS_A_PAGE) throw new RangeError(`no label ${label}`);
  const column = (label - 1) % ACROSS;
  const row = Math.floor((label - 1) / ACROSS);
  return {
    x: SIDE + column * PITCH_ACROSS + points(rightTenthsMm),
    y: TOP + row * PITCH_DOWN + points(downTenthsMm),
    width: WIDTH,
    height: HEIGHT,
  };
}

/** 25.4 mm are an inch of 72 points. */
function points(tenthsMm: number): number {
  return (tenthsMm * 72) / 254;
}

const OFFSET_MISTAKES: readonly Mistake[] = [
  { when: /,/, say: 'Use a point, not a comma: 1.5.' },
  {
    when: /^(?![-\u2212]?\d+(\.\d)?$)/,
    say: 'Enter millimetres with at most one digit behind the point, such as 1.5 or -0.8.',
  },
  {
    when: /^[-\u2212]?0*(\d{3,}|[2-9]\d|1[1-9]|10\.[1-9])/,
    code: 'too_large',
    say: 'Enter at most 10 millimetres either way: beyond that, the sheet lies wrong in the printer.',
  },
];

/** Reads an offset in millimetres, -10 to 10 with one place; nothing typed is none. Gives tenths of a millimetre. */
export function parseOffset(text: string): Result<number> {
  const typed = text.trim();
  if (typed === '') return accept(0);
  const mistake = firstMistake(OFFSET_MISTAKES, typed);
  if (mistake !== null) return mistake;
  const [, sign = '', whole = '0', tenth = '0'] = /^([-\u2212]?)(\d+)(?:\.(\d))?$/.exec(typed) ?? [];
  const tenths = Number.parseInt(`${whole}${tenth}`, 10);
  return accept(sign === '' || tenths === 0 ? tenths : -tenths);
}

const LABEL_MISTAKES: readonly Mistake[] = [
  { when: /^(?!\d+$)/, say: 'Enter the number of the first label that is still on the sheet, 1 to 30.' },
  {
    when: /^0*(0|[4-9]\d|3[1-9]|\d{3,})$/,
    say: 'A sheet has the labels 1 to 30, counted from left to right and then down.',
  },
];

/** Reads the label to begin with, 1 to 30; nothing typed is the first. */
export function parseStartLabel(text: string): Result<number> {
  const typed = text.trim();
  if (typed === '') return accept(1);
  return firstMistake(LABEL_MISTAKES, typed) ?? accept(Number.parseInt(typed, 10));
}

/**
 * The stock of labels: 30 on a US letter sheet, 2 5/8 by 1 inch each. The dimensions are those published for this
 * common kind of sheet: 3 across and 10 down, 1/2 inch from the top and 3/16 from the side to the first label, 2 3/4
 * inches from one label to the next across and 1 inch down. A point is 1/72 inch, so each of them is exact.
 */
import { accept, type Result, refuse } from '#lib/result/result.ts';

const ACROSS = 3;
const DOWN = 10;
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

const MOST_TENTHS_MM = 100;
const MILLIMETRES = /^([-\u2212]?)(\d{1,6})(?:\.(\d))?$/;

/** Reads an offset in millimetres, -10 to 10 with one place; nothing typed is none. Gives tenths of a millimetre. */
export function parseOffset(text: string): Result<number> {
  const typed = text.trim();
  if (typed === '') return accept(0);
  if (typed.includes(',')) return refuse('malformed', 'Use a point, not a comma: 1.5.');
  const [, sign = '', whole, tenth = '0'] = MILLIMETRES.exec(typed) ?? [];
  if (whole === undefined) {
    return refuse('malformed', 'Enter millimetres with at most one digit behind the point, such as 1.5 or -0.8.');
  }
  const tenths = Number.parseInt(`${whole}${tenth}`, 10);
  if (tenths > MOST_TENTHS_MM) {
    const message = 'Enter at most 10 millimetres either way: beyond that, the sheet lies wrong in the printer.';
    return refuse('too_large', message);
  }
  return accept(sign === '' || tenths === 0 ? tenths : -tenths);
}

/** Reads the label to begin with, 1 to 30; nothing typed is the first. */
export function parseStartLabel(text: string): Result<number> {
  const typed = text.trim();
  if (typed === '') return accept(1);
  const label = /^\d{1,6}$/.test(typed) ? Number.parseInt(typed, 10) : 0;
  if (label >= 1 && label <= LABELS_A_PAGE) return accept(label);
  return refuse('malformed', 'Enter the first label that is still on the sheet: 1 to 30, left to right and then down.');
}

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LABELS_A_PAGE, labelSpot, NO_OFFSET, parseOffset, parseStartLabel } from '#lib/paper/label-stock.ts';

const INCH = 72;
const label = fc.integer({ min: 1, max: LABELS_A_PAGE });

describe('the stock', () => {
  // The dimensions published for letter sheets of 30 labels, 2 5/8 by 1 inch; from memory.
  it('has its labels where the published dimensions say', () => {
    expect(labelSpot(1, NO_OFFSET)).toEqual({
      x: (3 / 16) * INCH,
      y: 0.5 * INCH,
      width: 2.625 * INCH,
      height: 1 * INCH,
    });
    expect(labelSpot(3, NO_OFFSET)).toMatchObject({ x: (3 / 16 + 2 * 2.75) * INCH, y: 0.5 * INCH });
    expect(labelSpot(30, NO_OFFSET)).toMatchObject({ x: (3 / 16 + 2 * 2.75) * INCH, y: (0.5 + 9) * INCH });
  });

  it('leaves the same margin on both sides, and above and below', () => {
    const last = labelSpot(30, NO_OFFSET);
    expect(612 - (last.x + last.width)).toBe(labelSpot(1, NO_OFFSET).x);
    expect(792 - (last.y + last.height)).toBe(labelSpot(1, NO_OFFSET).y);
  });

  it('has no label over another', () => {
    fc.assert(
      fc.property(label, label, (one, other) => {
        fc.pre(one !== other);
        const [a, b] = [labelSpot(one, NO_OFFSET), labelSpot(other, NO_OFFSET)];
        const apart = a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
        expect(apart).toBe(true);
      }),
    );
  });

  it('moves every label by the offset alike', () => {
    const tenths = fc.integer({ min: -100, max: 100 });
    fc.assert(
      fc.property(label, tenths, tenths, (no, rightTenthsMm, downTenthsMm) => {
        const [at, moved] = [labelSpot(no, NO_OFFSET), labelSpot(no, { rightTenthsMm, downTenthsMm })];
        expect(((moved.x - at.x) * 254) / INCH).toBeCloseTo(rightTenthsMm, 6);
        expect(((moved.y - at.y) * 254) / INCH).toBeCloseTo(downTenthsMm, 6);
      }),
    );
  });

  it.each([0, 31, 1.5])('has no label %s', (no) => expect(() => labelSpot(no, NO_OFFSET)).toThrow(RangeError));
});

describe('an offset as it is typed', () => {
  it.each([
    ['', 0],
    ['0', 0],
    ['1', 10],
    ['1.5', 15],
    ['-0.8', -8],
    ['\u22120.8', -8],
    [' 10 ', 100],
    ['10.0', 100],
    ['-10', -100],
    ['-0', 0],
    ['007.5', 75],
  ])('“%s” is %d tenths of a millimetre', (text, value) => {
    expect(parseOffset(text)).toEqual({ ok: true, value });
  });

  it.each([
    ['1,5', 'malformed'],
    ['1.55', 'malformed'],
    ['one', 'malformed'],
    ['1.5 mm', 'malformed'],
    ['--1', 'malformed'],
    ['.5', 'malformed'],
    ['10.1', 'too_large'],
    ['11', 'too_large'],
    ['-25', 'too_large'],
    ['100', 'too_large'],
  ])('“%s” is refused as %s', (text, code) => {
    expect(parseOffset(text)).toMatchObject({ ok: false, code });
  });
});

describe('the label to begin with', () => {
  it('is one of the thirty', () => {
    for (let no = 1; no <= 30; no += 1) expect(parseStartLabel(String(no))).toEqual({ ok: true, value: no });
    expect(parseStartLabel('')).toEqual({ ok: true, value: 1 });
    expect(parseStartLabel('007')).toEqual({ ok: true, value: 7 });
  });
  it.each(['0', '31', '40', '100', '-1', '1.5', 'x'])('is not %s', (text) => {
    expect(parseStartLabel(text)).toMatchObject({ ok: false, code: 'malformed' });
  });
});

import { describe, expect, it } from 'vitest';
import { withoutFormula, withoutFormulaOrFigure } from '#lib/result/text.ts';

/** OWASP, "CSV Injection", and ASVS 5.0.0, V1.2.10: the characters with which a formula may begin. */
const FORMULAS = [
  '=1+1',
  '+1',
  '-1+2',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  '\0=1',
  '=HYPERLINK("http://x","y")',
  '-2;3',
  '-',
  '+',
];

describe('a text for a spreadsheet', () => {
  it.each(FORMULAS)('%j is marked as text', (cell) => {
    expect(withoutFormula(cell)).toBe(`'${cell}`);
    expect(withoutFormulaOrFigure(cell)).toBe(`'${cell}`);
  });

  it.each(['', 'Muskrat', "'quoted", '12.50', 'a=b', ' =1'])('%j is left as it is', (cell) => {
    expect(withoutFormula(cell)).toBe(cell);
    expect(withoutFormulaOrFigure(cell)).toBe(cell);
  });

  it('money below nothing is a figure in a table of all kinds', () => {
    expect(['-12.50', '-0.01', '-7'].map(withoutFormulaOrFigure)).toEqual(['-12.50', '-0.01', '-7']);
    expect(['-12,50', '-1.', '--1', '-1e3'].map(withoutFormulaOrFigure)).toEqual(["'-12,50", "'-1.", "'--1", "'-1e3"]);
  });
});

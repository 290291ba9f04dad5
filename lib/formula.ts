/**
 * A text for a spreadsheet: one that would be taken for a formula gets an apostrophe in front. The characters are those
 * that OWASP names under CSV injection. For columns of text only: a figure below nothing begins with a minus, too.
 */
export function withoutFormula(text: string): string {
  return /^[=+\-@\t\r\0]/.test(text) ? `'${text}` : text;
}

const FIGURE = /^-?\d+(\.\d+)?$/;

/** The same for a table whose columns are not told apart: a plain figure is no formula, whatever its sign. */
export function withoutFormulaOrFigure(cell: string): string {
  return FIGURE.test(cell) ? cell : withoutFormula(cell);
}

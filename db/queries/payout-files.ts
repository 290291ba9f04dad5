/** The files of payout by name: registers and returns of their own, and those of the exchange folder. */
import { parse } from 'csv-parse/sync';
import { agencyReturnRows, RETURN_COLUMNS } from '#lib/afterwards/agency-return.ts';
import { HELD_COLUMNS, heldRows } from '#lib/afterwards/held-over.ts';
import { withoutFormulaOrFigure } from '#lib/formula.ts';
import { REGISTER_COLUMNS, registerRows } from '#lib/payout/check-papers.ts';
import { csvText } from '../exchange/csv-text.ts';
import { folderTexts } from '../exchange/export-sale.ts';
import type { Book } from '../open.ts';
import { afterwardsFacts } from './afterwards.ts';
import { checksOfSale } from './checks.ts';
import type { SaleRow } from './find.ts';

interface Asked {
  readonly file: string;
  /** ISO 8601 date. */
  readonly drawnOn: string;
}

/** Those of the exchange folder that are handed out one by one; the whole folder is written on the command line. */
const OF_THE_FOLDER = ['tag_register.csv', 'price_table.csv', 'settlements.csv', 'journal.csv', 'journal.ledger'];

/** The text of a file, or undefined where there is none of that name. */
export function payoutFile(book: Book, sale: SaleRow, { file, drawnOn }: Asked): string | undefined {
  switch (file) {
    case 'checks.csv':
      return csvText(REGISTER_COLUMNS, forSpreadsheets(registerRows(checksOfSale(book, sale.id))));
    case 'agency_return.csv':
      return csvText(RETURN_COLUMNS, forSpreadsheets(agencyReturnRows(afterwardsFacts(book, sale, { drawnOn }))));
    case 'held_over.csv':
      return csvText(HELD_COLUMNS, forSpreadsheets(heldRows(afterwardsFacts(book, sale, { drawnOn }))));
    default:
      return OF_THE_FOLDER.includes(file) ? fileOfTheFolder(folderTexts(book, sale.id).get(file), file) : undefined;
  }
}

/** A text that a spreadsheet would take for a formula gets an apostrophe before it; figures stay as they are. */
function forSpreadsheets(rows: readonly (readonly string[])[]): string[][] {
  return rows.map((row) => row.map(withoutFormulaOrFigure));
}

/** A file of the exchange folder as a spreadsheet may open it; the folder itself holds what is read back. */
function fileOfTheFolder(text: string | undefined, file: string): string | undefined {
  if (text === undefined || !file.endsWith('.csv')) return text;
  const [header = [], ...rows] = parse(text, { relax_column_count: true }) as string[][];
  return csvText(header, forSpreadsheets(rows));
}

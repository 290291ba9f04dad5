/** The papers of payout by the word under which a screen asks for them. */

import { parse } from 'csv-parse/sync';
import { depositsOf } from '#db/bank/queries.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { spreadsheetText } from '#db/exchange/csv.ts';
import { folderTexts } from '#db/exchange/export-sale.ts';
import { paperGround } from '#db/lot/papers.ts';
import { checksOfSale } from '#db/payment/queries.ts';
import { paidBeforeCheck } from '#db/payment/receipts.ts';
import { balanceView, closingsOf, revenueOfSale } from '#db/report/closing.ts';
import { afterwardsFacts } from '#db/report/queries.ts';
import { depositSlip } from '#lib/bank/deposit.ts';
import { type StubPage, stubPages } from '#lib/paper/labels.ts';
import { type ListPaper, listPaper } from '#lib/paper/list.ts';
import { checkRegister, checkStub, REGISTER_COLUMNS, registerRows } from '#lib/payment/check-papers.ts';
import { agencyReturn, agencyReturnRows, RETURN_COLUMNS } from '#lib/report/agency-return.ts';
import { balanceTable } from '#lib/report/closing-report.ts';
import { HELD_COLUMNS, heldOver, heldRows } from '#lib/report/held-over.ts';
import { issuedSheets } from './sheets.ts';

interface Asked {
  readonly paper: string;
  /** ISO 8601 date. */
  readonly drawnOn: string;
  /** The number of one check, or null for all. */
  readonly check: string | null;
  /** The number of one deposit, or null for all that stand. */
  readonly deposit?: string | null;
}

/** Undefined where there is no such paper; no papers where there is nothing to print. */
export function payoutPapers(book: Book, sale: SaleRow, asked: Asked): (ListPaper | StubPage)[] | undefined {
  const ground = paperGround(book, sale, asked.drawnOn);
  switch (asked.paper) {
    case 'check-register':
      return [checkRegister(ground, checksOfSale(book, sale.id))];
    case 'check-stubs':
      return stubPages(checkStubs(book, sale, asked));
    case 'deposit-slip':
      return depositsOf(book, sale.id)
        .filter(({ depositId, voided }) =>
          asked.deposit == null ? voided === null : String(depositId) === asked.deposit,
        )
        .map((one) => depositSlip(ground, one));
    case 'balance':
      return [listPaper(ground, { title: 'Balance', tables: [balanceTable(balanceView(book, sale).lines)] })];
    case 'closing-report':
      return closingsOf(book, sale.id)
        .flatMap(({ report }) => report ?? [])
        .slice(-1);
    case 'kept':
      return [revenueOfSale(book, sale, asked.drawnOn)];
    case 'agency-return':
      return [agencyReturn(afterwardsFacts(book, sale, asked))];
    case 'held-over':
      return [heldOver(afterwardsFacts(book, sale, asked))];
    default:
      return undefined;
  }
}

/** A stub for each check that is good, or for the one that is asked for. */
function checkStubs(book: Book, sale: SaleRow, { drawnOn, check }: Asked): ListPaper[] {
  const ground = paperGround(book, sale, drawnOn);
  const sheets = new Map(issuedSheets(book, sale.id).map(({ number, sheet }) => [number, sheet]));
  return checksOfSale(book, sale.id)
    .filter(({ number, voidedOn }) => (check === null ? voidedOn === null : String(number) === check))
    .flatMap((one) => {
      const sheet = sheets.get(one.sheetNumber);
      return sheet ? [checkStub(ground, { check: one, sheet, earlier: paidBeforeCheck(book, one.paymentId) })] : [];
    });
}

/** Those of the exchange folder that are handed out one by one; the whole folder is written on the command line. */
const OF_THE_FOLDER = ['tag_register.csv', 'price_table.csv', 'settlements.csv', 'journal.csv', 'journal.ledger'];

/** The text of a file, or undefined where there is none of that name. `drawnOn` is an ISO 8601 date. */
export function payoutFile(
  book: Book,
  sale: SaleRow,
  { file, drawnOn }: { readonly file: string; readonly drawnOn: string },
): string | undefined {
  switch (file) {
    case 'checks.csv':
      return spreadsheetText(REGISTER_COLUMNS, registerRows(checksOfSale(book, sale.id)));
    case 'agency_return.csv':
      return spreadsheetText(RETURN_COLUMNS, agencyReturnRows(afterwardsFacts(book, sale, { drawnOn })));
    case 'held_over.csv':
      return spreadsheetText(HELD_COLUMNS, heldRows(afterwardsFacts(book, sale, { drawnOn })));
    default:
      return OF_THE_FOLDER.includes(file) ? fileOfTheFolder(folderTexts(book, sale.id).get(file), file) : undefined;
  }
}

/** A file of the exchange folder as a spreadsheet may open it; the folder itself holds what is read back. */
function fileOfTheFolder(text: string | undefined, file: string): string | undefined {
  if (text === undefined || !file.endsWith('.csv')) return text;
  const [header = [], ...rows] = parse(text, { relax_column_count: true }) as string[][];
  return spreadsheetText(header, rows);
}

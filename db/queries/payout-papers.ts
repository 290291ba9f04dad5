/** The papers of payout by the word under which a screen asks for them. */
import { agencyReturn } from '#lib/afterwards/agency-return.ts';
import { heldOver } from '#lib/afterwards/held-over.ts';
import { balanceTable } from '#lib/closing/report.ts';
import { type ListPaper, listPaper } from '#lib/paper/list.ts';
import { type StubPage, stubPages } from '#lib/paper/stubs.ts';
import { checkRegister, checkStub } from '#lib/payout/check-papers.ts';
import type { Book } from '../open.ts';
import { afterwardsFacts } from './afterwards.ts';
import { balanceView, closingsOf, keptOfSale } from './balance-view.ts';
import { checksOfSale } from './checks.ts';
import type { SaleRow } from './find.ts';
import { paperGround } from './paper-lots.ts';
import { issuedSheets } from './sheets.ts';

interface Asked {
  readonly paper: string;
  /** ISO 8601 date. */
  readonly drawnOn: string;
  /** The number of one check, or null for all. */
  readonly check: string | null;
}

/** Undefined where there is no such paper; no papers where there is nothing to print. */
export function payoutPapers(book: Book, sale: SaleRow, asked: Asked): (ListPaper | StubPage)[] | undefined {
  const ground = paperGround(book, sale, asked.drawnOn);
  switch (asked.paper) {
    case 'check-register':
      return [checkRegister(ground, checksOfSale(book, sale.id))];
    case 'check-stubs':
      return stubPages(checkStubs(book, sale, asked));
    case 'balance':
      return [listPaper(ground, { title: 'Balance', tables: [balanceTable(balanceView(book, sale).lines)] })];
    case 'closing-report':
      return closingsOf(book, sale.id)
        .flatMap(({ report }) => report ?? [])
        .slice(-1);
    case 'kept':
      return [keptOfSale(book, sale, asked.drawnOn)];
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
      return sheet ? [checkStub(ground, one, sheet)] : [];
    });
}

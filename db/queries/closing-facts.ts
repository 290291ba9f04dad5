/** What the balance by which a sale is closed is made from, out of the book. */
import type { ClosingFacts } from '#lib/closing/facts.ts';
import { isOpen } from '#lib/drawer/reckon.ts';
import type { SaleFacts } from '#lib/facts.ts';
import type { Book } from '../open.ts';
import { drawerEntries, drawerMoves } from './drawer.ts';
import { billedOn, newestInvoices } from './invoices.ts';
import { saleFacts } from './sale-facts.ts';
import { issuedSheets } from './sheets.ts';

export interface ClosingScene extends ClosingFacts {
  readonly drawerOpen: boolean;
}

/** `facts` may be given where they were read already. */
export function closingFacts(book: Book, saleId: number, facts: SaleFacts = saleFacts(book, saleId)): ClosingScene {
  const drawer = drawerEntries(book, saleId);
  const sheets = new Map(
    issuedSheets(book, saleId).map(({ sellerNo, number, sheet }) => [sellerNo, { number, totals: sheet.totals }]),
  );
  const invoices = billedOn(newestInvoices(book, saleId));
  return { facts, sheets, invoices, drawer, moves: drawerMoves(book, saleId), drawerOpen: isOpen(drawer) };
}

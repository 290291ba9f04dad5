import type { InvoicePaper } from '#lib/buyer/model.ts';
import type { Scene } from '../command.ts';
import { canonical } from '../log.ts';
import { insertRow } from '../rows.ts';
import { invoice } from '../schema/index.ts';

interface InvoicePlace {
  readonly saleId: number;
  readonly buyerId: number;
  readonly number: number;
  /** The row of the invoice that this one corrects, or null. */
  readonly correctsId: number | null;
}

/** Freezes an invoice as RFC 8785 text, so that the same invoice is the same bytes on every machine; gives the row's id. */
export function saveInvoice(scene: Scene, place: InvoicePlace, paper: InvoicePaper): number {
  const row = { ...place, model: canonical(paper), issuedAt: scene.at, line: scene.line };
  return insertRow(scene.book, invoice, row);
}

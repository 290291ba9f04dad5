/** The issued invoices as they were frozen, and an invoice as it would be issued now. */
import { asc, desc, eq, sql } from 'drizzle-orm';
import { nextNumber } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { factsOf } from '#db/sale/facts.ts';
import { buyersIn, type Scope, scoped } from '#db/sale/scope.ts';
import { buyer, invoice } from '#db/schema/index.ts';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { stillTrue } from '#lib/invoice/change.ts';
import type { InvoicePaper } from '#lib/invoice/model.ts';
import { billedNow, invoicePaper } from '#lib/invoice/paper.ts';
import type { Cents } from '#lib/money/money.ts';
import { groupBy } from '#lib/result/text.ts';

/** An issued invoice with its row's id. */
export interface IssuedInvoice {
  readonly invoiceId: number;
  readonly number: number;
  readonly buyerNo: number;
  readonly invoice: InvoicePaper;
}

const columns = { invoiceId: invoice.id, number: invoice.number, buyerNo: buyer.buyerNo, model: invoice.model };

/** A seller's papers ask for no invoices. */
const findIssued = scoped(({ db }, kind) =>
  db
    .select(columns)
    .from(invoice)
    .innerJoin(buyer, eq(buyer.id, invoice.buyerId))
    .where(kind === 'sale' ? equals(invoice.saleId, 'saleId') : kind === 'buyer' ? buyersIn(kind) : sql`0`)
    .orderBy(asc(invoice.number)),
);

/** The issued invoices of a sale, or of the buyers of a scope, by their numbers. */
export function issuedInvoices(book: Book, saleId: number, scope: Scope = null): IssuedInvoice[] {
  return findIssued(book, saleId, scope).map(thawed);
}

/** The newest invoice of one buyer, or undefined: the older ones were corrected by it. */
export function newestInvoice(book: Book, buyerId: number): IssuedInvoice | undefined {
  const row = findNewest(book).get({ buyerId });
  return row && thawed(row);
}

const findNewest = query(({ db }) =>
  db
    .select(columns)
    .from(invoice)
    .innerJoin(buyer, eq(buyer.id, invoice.buyerId))
    .where(equals(invoice.buyerId, 'buyerId'))
    .orderBy(desc(invoice.number))
    .limit(1),
);

type IssuedRow = Omit<IssuedInvoice, 'invoice'> & { readonly model: string };

function thawed({ model, ...row }: IssuedRow): IssuedInvoice {
  return { ...row, invoice: JSON.parse(model) as InvoicePaper };
}

/** Issued invoices are never deleted, so one behind the highest leaves no gap. */
export const nextInvoiceNumber = nextNumber(invoice, invoice.number);

/** The invoice as it would be issued now, without a number. `drawnOn` is an ISO 8601 date. */
export function previewInvoice(
  book: Book,
  { file, before }: { readonly file: BuyerFile; readonly before?: InvoicePaper | undefined },
  drawnOn: string,
): InvoicePaper {
  return invoicePaper(file, { number: null, issuedOn: drawnOn, head: logHead(book) }, before ?? null);
}

/** Whether an issued invoice still says what the buyer has bought. */
export function saysWhatIs(issued: InvoicePaper, file: BuyerFile): boolean {
  return stillTrue(issued, billedNow(file));
}

export interface InvoiceState {
  readonly number: number;
  readonly totalCents: Cents;
  readonly stillTrue: boolean;
}

/** Of each buyer number that has an invoice the newest, and whether it still says what was bought. */
export function invoiceStates(book: Book, saleId: number, scope: Scope): Map<number, InvoiceState> {
  const newest = new Map(issuedInvoices(book, saleId, scope).map((one) => [one.buyerNo, one]));
  if (newest.size === 0) return new Map();
  const { sale, goods, buyers, lots, outcomes } = factsOf(book, saleId, scope);
  const lotOf = new Map(lots.map((one) => [one.lotNo, one]));
  const sold = groupBy(
    outcomes.filter(({ kind }) => kind === 'sold'),
    ({ buyerNo }) => buyerNo,
  );
  return new Map(
    buyers.flatMap((one) => {
      const issued = newest.get(one.buyerNo);
      if (!issued) return [];
      const own = sold.get(one.buyerNo) ?? [];
      const bought = own.flatMap(({ lotNo }) => lotOf.get(lotNo) ?? []);
      const now = billedNow({ sale, goods, buyer: one, lots: bought, outcomes: own });
      const { totalCents } = issued.invoice.totals;
      return [[one.buyerNo, { number: issued.number, totalCents, stillTrue: stillTrue(issued.invoice, now) }] as const];
    }),
  );
}

/** How each buyer of a sale stands: the head of the account, as the till lists it. */
import { and, asc, eq, gte, lte, sql } from 'drizzle-orm';
import type { BuyerAccount } from '#lib/buyer-account.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { type Cents, cents } from '#lib/money.ts';
import { type LicenceState, licenceInWords, type Standing } from '#lib/standing.ts';
import type { Book } from '../open.ts';
import { buyer, particulars } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import type { HandoverRow } from './handed.ts';
import type { InvoiceState } from './invoices.ts';

export interface BuyerHead {
  readonly buyerNo: number;
  readonly name: string;
  readonly licence: Standing<LicenceState>;
  readonly cleared: boolean;
  readonly clearedBy: string;
  /** The number of the exemption, or null for a buyer who pays tax. */
  readonly exemptNo: string | null;
  readonly lots: number;
  readonly totalCents: Cents;
  readonly paidCents: Cents;
  readonly owingCents: Cents;
  /** The newest invoice, and whether it still says what was bought; null where none was issued. */
  readonly invoice: InvoiceState | null;
  /** How many of the lots still lie on the table. */
  readonly lotsHere: number;
  /** The limit that warns, where one is set and what is owing goes beyond it. */
  readonly overLimitCents: Cents | null;
}

interface Heads {
  /** By number. */
  readonly accounts: readonly BuyerAccount[];
  readonly newest: ReadonlyMap<LotNo, HandoverRow>;
  readonly invoices: ReadonlyMap<number, InvoiceState>;
}

/** The heads of these accounts, reading no buyer beyond them. */
export function headsOf(
  book: Book,
  { id: saleId, heldOn }: Pick<SaleRow, 'id' | 'heldOn'>,
  { accounts, newest, invoices }: Heads,
): BuyerHead[] {
  const [from, to] = [accounts[0]?.buyerNo ?? 0, accounts.at(-1)?.buyerNo ?? 0];
  const rows = rowsOf(book).all({ saleId, from, to });
  const byNumber = new Map(rows.map((row) => [row.buyer.buyerNo, row]));
  return accounts.flatMap(({ buyerNo, invoice, paidCents, owingCents }) => {
    const row = byNumber.get(buyerNo);
    if (!row) return [];
    const { cleared, clearedBy, taxExempt, exemptNo, limitCents } = row.buyer;
    const over = limitCents !== null && owingCents > limitCents;
    return [
      {
        ...{ buyerNo, name: row.name, licence: licenceInWords(row.buyer, heldOn), cleared, clearedBy },
        exemptNo: taxExempt ? exemptNo : null,
        ...{ lots: invoice.lots, totalCents: invoice.totalCents, paidCents, owingCents },
        invoice: invoices.get(buyerNo) ?? null,
        lotsHere: invoice.lines.filter(({ lotNo }) => newest.get(lotNo)?.kind !== 'handed').length,
        overLimitCents: over ? cents(limitCents) : null,
      },
    ];
  });
}

const given = sql.placeholder;

function rowsOf(book: Book) {
  return book.prepared('heads of buyers', (db) =>
    db
      .select({ buyer, name: particulars.name })
      .from(buyer)
      .innerJoin(particulars, and(eq(particulars.personId, buyer.personId), eq(particulars.saleId, buyer.saleId)))
      .where(
        and(eq(buyer.saleId, given('saleId')), ...[gte(buyer.buyerNo, given('from')), lte(buyer.buyerNo, given('to'))]),
      )
      .orderBy(asc(buyer.buyerNo))
      .prepare(),
  );
}

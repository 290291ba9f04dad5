/** How each seller number stands when it is to be paid: its newest sheet, what has changed since, and its partners' accounts. */
import { and, eq, sql } from 'drizzle-orm';
import { buyerAccounts } from '#lib/buyer-account.ts';
import type { Payment, SaleFacts } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import { type PartnerAccount, partnerAccounts } from '#lib/payout/accounts.ts';
import { sheetChanged } from '#lib/payout/correction.ts';
import type { CheckSeller } from '#lib/payout/decide-checks.ts';
import { checkNumberIn } from '#lib/payout/decide-payment.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';
import type { SellerFile } from '#lib/sheet/input.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { settlementSheet, sheetFigures } from '#lib/sheet/settlement-sheet.ts';
import { logHead } from '../log.ts';
import type { Book } from '../open.ts';
import { particulars, sellerCheck } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { buyerByNumber, type SaleRow } from './find.ts';
import { owingOf } from './limits.ts';
import { moneyFacts, saleFacts, sellerFacts } from './sale-facts.ts';
import { type IssuedSheet, issuedSheets, newestSheets, sellerFile, sellerFilesOf, sheetsOfSeller } from './sheets.ts';

export interface PayoutSeller extends CheckSeller {
  readonly file: SellerFile;
  readonly issued: IssuedSheet | null;
  /** The sheet as it would be issued now, without a number; made when it is asked for. */
  readonly fresh: () => SettlementSheet;
  /** What the sheet would come to, which costs no sheet. */
  readonly settled: SellerSettlement;
  readonly payments: readonly Payment[];
}

/** Every seller number of a sale, by number. `facts` may be given where they were read already. */
export function payoutSellers(
  book: Book,
  sale: Pick<SaleRow, 'id' | 'sellersWait'>,
  facts: SaleFacts = saleFacts(book, sale.id),
): PayoutSeller[] {
  const waits = sale.sellersWait ? buyersOwing(facts) : new Map<number, number[]>();
  const newest = newestSheets(issuedSheets(book, sale.id));
  return sellersOf(book, facts, { files: sellerFilesOf(book, sale.id, { facts }), newest, waits });
}

/** One of them, reading no more than is needed for it; undefined where the sale has no such number. */
export function payoutSeller(book: Book, sale: SaleRow, sellerNo: number): PayoutSeller | undefined {
  const file = sellerFile(book, sale.id, sellerNo);
  if (!file) return undefined;
  const waits = new Map(sale.sellersWait ? [[sellerNo, buyersOwingTo(book, sale, sellerNo)]] : []);
  const newest = newestSheets(sheetsOfSeller(book, sale.id, sellerNo));
  return sellersOf(book, sellerFacts(book, sale.id, sellerNo), { files: [file], newest, waits })[0];
}

interface Read {
  readonly files: readonly SellerFile[];
  readonly newest: ReadonlyMap<number, IssuedSheet>;
  readonly waits: ReadonlyMap<number, readonly number[]>;
}

function sellersOf(book: Book, facts: SaleFacts, { files, newest, waits }: Read): PayoutSeller[] {
  const settlements = new Map(settleSale(facts).map((one) => [one.sellerNo, one]));
  const paid = groupBy(facts.payments, (payment) => payment.sellerNo);
  const stamp = { number: null, issuedOn: facts.sale.heldOn, head: logHead(book) };
  return files.map((file) => {
    const { sellerNo } = file.seller;
    const issued = newest.get(sellerNo) ?? null;
    const settled = settlements.get(sellerNo);
    if (!settled) throw new RangeError(`seller number ${sellerNo} was not settled`);
    const fresh = once(() => settlementSheet(file, stamp));
    const payments = paid.get(sellerNo) ?? [];
    return {
      ...{ sellerNo, file, issued, fresh, settled, payments },
      sheetNumber: issued?.number ?? null,
      changed: issued !== null && sheetChanged(issued.sheet, sheetFigures(file)),
      waitsFor: waits.get(sellerNo) ?? [],
      accounts: partnerAccounts(issued ? sharesOf(issued.sheet) : settled.shares, payments),
    };
  });
}

/** Most sellers of a large sale have no sheet yet, and nobody looks at all of theirs. */
function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

export function sharesOf({ shares }: SettlementSheet): Pick<PartnerAccount, 'personId' | 'shareCents'>[] {
  return shares.map(({ personId, share }) => ({ personId, shareCents: share.cents }));
}

/** The buyers who still owe for lots of each seller number. */
function buyersOwing(facts: SaleFacts): Map<number, number[]> {
  const owing = buyerAccounts(facts).filter(({ owingCents }) => owingCents > 0);
  const waits = new Map<number, number[]>();
  for (const { buyerNo, invoice } of owing) {
    for (const sellerNo of new Set(invoice.lines.map((line) => line.sellerNo))) {
      waits.set(sellerNo, [...(waits.get(sellerNo) ?? []), buyerNo]);
    }
  }
  return waits;
}

/** The same of one seller number, reading the accounts of no more buyers than bought from it. */
function buyersOwingTo(book: Book, sale: SaleRow, sellerNo: number): number[] {
  const { lots, outcomes } = sellerFacts(book, sale.id, sellerNo);
  const own = new Set(lots.map(({ lotNo }) => lotNo));
  const bought = outcomes.filter(({ kind, lotNo }) => kind === 'sold' && own.has(lotNo));
  const buyerNos = [...new Set(bought.flatMap(({ buyerNo }) => buyerNo ?? []))].sort((a, b) => a - b);
  return buyerNos.filter((buyerNo) => {
    const row = buyerByNumber(book, sale.id, buyerNo);
    return row !== undefined && owingOf(book, sale, row) > 0;
  });
}

const findCheckNumbers = statement(({ db }) =>
  db
    .select({ number: sellerCheck.number })
    .from(sellerCheck)
    .where(eq(sellerCheck.saleId, sql.placeholder('saleId')))
    .prepare(),
);

/** The check numbers of a sale that are used up: those of the register, also of void checks, and those of checks recorded by hand. */
export function takenCheckNumbers(book: Book, saleId: number): Set<number> {
  const rows = findCheckNumbers(book).all({ saleId });
  const byHand = moneyFacts(book, saleId).payments.flatMap((payment) => checkNumberIn(payment) ?? []);
  return new Set([...rows.map(({ number }) => number), ...byHand]);
}

const findPerson = statement(({ db }) =>
  db
    .select({ personId: particulars.personId })
    .from(particulars)
    .where(and(eq(particulars.saleId, sql.placeholder('saleId')), eq(particulars.ref, sql.placeholder('ref'))))
    .prepare(),
);

/** The person behind a reference of a sale, which a folder may have named in its own way. */
export function personIdOf(book: Book, saleId: number, ref: string): number | undefined {
  return findPerson(book).get({ saleId, ref })?.personId;
}

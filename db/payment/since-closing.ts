/** What happened to the money of a sale since it was closed, and what is owed again by it. */
import { and, asc, eq, gt, inArray, sql } from 'drizzle-orm';
import { type SaleRow, sellerByNumber } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { accountSums, buyersOfSale } from '#db/buyer/accounts.ts';
import { closedAt, timeZoneOf } from '#db/sale/queries.ts';
import { buyer, handover, journalEntry, lot, payment, posting, seller } from '#db/schema/index.ts';
import { type PayoutSeller, payoutSeller, personIdOf } from '#db/settlement/payout.ts';
import { MONEY_ACCOUNTS } from '#lib/account/account.ts';
import { localDay } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { cents, sumCents, ZERO } from '#lib/money/money.ts';
import { type OwedSince, owedAgain, type SinceEntry } from '#lib/payment/since-closing.ts';

const given = sql.placeholder;

/** What each partner of each seller number was paid less, or more below nothing, since a line of the log. */
const paidLess = query(({ db }) =>
  db
    .select({
      sellerNo: seller.sellerNo,
      personId: payment.personId,
      cents: sql<number>`sum(CASE WHEN (${payment.direction} = 'out') = (${payment.voidsId} IS NULL) THEN -1 ELSE 1 END * ${payment.amountCents})`,
    })
    .from(payment)
    .innerJoin(seller, eq(seller.id, payment.sellerId))
    .where(and(equals(payment.saleId, 'saleId'), gt(payment.line, given('line'))))
    .groupBy(seller.sellerNo, payment.personId)
    .orderBy(asc(seller.sellerNo)),
);

/** A seller number with accounts that say what is owed again since the closing, and nothing from before it. */
export function owedSince(book: Book, sale: SaleRow, found: PayoutSeller): PayoutSeller {
  const line = closedAt(book, sale.id);
  const less = paidLess(book)
    .all({ saleId: sale.id, line })
    .filter(({ sellerNo }) => sellerNo === found.sellerNo);
  const byPerson = new Map(less.map(({ personId, cents: amount }) => [personId, cents(amount)]));
  const accounts = found.accounts.map((account) => {
    const personId = personIdOf(book, sale.id, account.personId) ?? null;
    return { ...account, owingCents: owedAgain(account.owingCents, byPerson.get(personId) ?? ZERO) };
  });
  // They were paid before and waited for nobody then.
  return { ...found, waitsFor: [], accounts };
}

/** The seller numbers that are owed again since the closing of a sale, or owe since because their own check came back. */
export function sellersOwedSince(book: Book, sale: SaleRow): OwedSince[] {
  const rows = paidLess(book).all({ saleId: sale.id, line: closedAt(book, sale.id) });
  return [...new Set(rows.map(({ sellerNo }) => sellerNo))].flatMap((sellerNo) => {
    const found = sellerByNumber(book, sale.id, sellerNo) && payoutSeller(book, sale, sellerNo);
    if (!found) return [];
    const toPay = sumCents(owedSince(book, sale, found).accounts.map(({ owingCents }) => owingCents));
    // At the closing no number owed: what one owes by now, it owes since.
    const all = sumCents(found.accounts.map(({ owingCents }) => owingCents));
    const amountCents = toPay === ZERO && all < ZERO ? all : toPay;
    return amountCents === ZERO ? [] : [{ sellerNo, amountCents }];
  });
}

/** The buyers who owe in a closed sale: at the closing nobody did. */
export function buyersOwingSince(book: Book, sale: SaleRow) {
  const accountOf = accountSums(book, sale);
  return buyersOfSale(book, sale.id)
    .map((row) => ({ buyerNo: row.buyerNo, amountCents: accountOf(row).owingCents }))
    .filter(({ amountCents }) => amountCents > ZERO);
}

const entriesSince = query(({ db }) =>
  db
    .select({
      ...pick(journalEntry, ['day', 'memo', 'line']),
      moved: sql<number>`sum(CASE WHEN ${inArray(posting.account, MONEY_ACCOUNTS)} THEN ${posting.amountCents} ELSE 0 END)`,
      cents: sql<number>`sum(max(${posting.amountCents}, 0))`,
    })
    .from(journalEntry)
    .innerJoin(posting, eq(posting.entryId, journalEntry.id))
    .where(and(equals(journalEntry.saleId, 'saleId'), gt(journalEntry.line, given('line'))))
    .groupBy(journalEntry.id)
    .orderBy(asc(journalEntry.id)),
);

const handedSince = query(({ db }) =>
  db
    .select({
      ...pick(handover, ['line', 'kind', 'at', 'takenBy']),
      ...pick(lot, ['lotNumber', 'lotLetter']),
      buyerNo: buyer.buyerNo,
    })
    .from(handover)
    .innerJoin(lot, eq(lot.id, handover.lotId))
    .innerJoin(buyer, eq(buyer.id, handover.buyerId))
    .where(and(equals(lot.saleId, 'saleId'), gt(handover.line, given('line'))))
    .orderBy(asc(handover.id)),
);

/** The entries of the journal since a sale was closed and the lots handed over or taken back since, in their order. */
export function sinceClosing(book: Book, saleId: number): SinceEntry[] {
  const from = { saleId, line: closedAt(book, saleId) };
  const money = entriesSince(book)
    .all(from)
    .map(({ cents: amount, moved, ...one }) => ({ ...one, amountCents: cents(amount), movedCents: cents(moved) }));
  const fur = handedSince(book)
    .all(from)
    .map(({ line, kind, at, takenBy, lotNumber, lotLetter, buyerNo }) => {
      const words = kind === 'handed' ? `handed over to buyer ${buyerNo}, taken by ${takenBy}` : 'taken back';
      const memo = `Lot ${lotNumber}${lotLetter} ${words}`;
      return { line, day: localDay(at, timeZoneOf(book)), memo, amountCents: null, movedCents: ZERO };
    });
  return [...money, ...fur].sort((a, b) => a.line - b.line).map(({ line: _, ...entry }) => entry);
}

/** What happened to the money of a sale since it was closed, and what is owed again by it. */
import { and, asc, eq, gt, sql } from 'drizzle-orm';
import { type SaleRow, sellerByNumber } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { accountSums, buyersOfSale } from '#db/buyer/accounts.ts';
import { closedAt } from '#db/sale/queries.ts';
import { journalEntry, payment, posting, seller } from '#db/schema/index.ts';
import { type PayoutSeller, payoutSeller, personIdOf } from '#db/settlement/payout.ts';
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
      ...pick(journalEntry, ['day', 'memo']),
      cents: sql<number>`sum(max(${posting.amountCents}, 0))`,
    })
    .from(journalEntry)
    .innerJoin(posting, eq(posting.entryId, journalEntry.id))
    .where(and(equals(journalEntry.saleId, 'saleId'), gt(journalEntry.line, given('line'))))
    .groupBy(journalEntry.id)
    .orderBy(asc(journalEntry.id)),
);

/** The entries of the journal since a sale was closed, in their order. */
export function sinceClosing(book: Book, saleId: number): SinceEntry[] {
  const rows = entriesSince(book).all({ saleId, line: closedAt(book, saleId) });
  return rows.map(({ cents: amount, ...entry }) => ({ ...entry, amountCents: cents(amount) }));
}

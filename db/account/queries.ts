/** The journal as it is: its entries in the order in which they were made, and what each account comes to. */
import { and, asc, eq, sum } from 'drizzle-orm';
import { rowsBy } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { journalEntry, posting } from '#db/schema/index.ts';
import { type Cents, negate, ZERO } from '#lib/money/money.ts';
import type { JournalEntry } from '#lib/report/journal.ts';
import { groupBy } from '#lib/result/text.ts';

const entriesOfSale = rowsBy(journalEntry, journalEntry.id, 'saleId');

const postingsOfSale = query(({ db }) =>
  db
    .select({ entryId: posting.entryId, account: posting.account, amountCents: posting.amountCents })
    .from(posting)
    .innerJoin(journalEntry, eq(journalEntry.id, posting.entryId))
    .where(equals(journalEntry.saleId, 'saleId'))
    .orderBy(asc(posting.id)),
);

/** The entries of a sale, each under its number in the book: a later one is only ever added behind. */
export function journalEntries(book: Book, saleId: number): JournalEntry[] {
  const postings = groupBy(postingsOfSale(book).all({ saleId }), ({ entryId }) => entryId);
  return entriesOfSale(book, saleId).map(({ id: number, day: date, memo }) => ({
    ...{ date, number, memo },
    postings: (postings.get(number) ?? []).map(({ account, amountCents }) => ({
      account,
      debitCents: amountCents > ZERO ? amountCents : ZERO,
      creditCents: amountCents > ZERO ? ZERO : negate(amountCents),
    })),
  }));
}

const balanceOfAccount = query(({ db }) =>
  db
    .select({ total: sum(posting.amountCents).mapWith(Number) })
    .from(posting)
    .innerJoin(journalEntry, eq(journalEntry.id, posting.entryId))
    .where(and(equals(journalEntry.saleId, 'saleId'), equals(posting.account, 'account'))),
);

/** Debits less credits of one account of a sale. */
export function accountBalance(book: Book, saleId: number, account: string): Cents {
  return (balanceOfAccount(book).get({ saleId, account })?.total ?? ZERO) as Cents;
}

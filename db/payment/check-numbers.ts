/** The numbers of checks: which are used up, and which comes next. */
import { and, desc, eq } from 'drizzle-orm';
import { type Book, query } from '#db/book/open.ts';
import { livePayment, payment, sellerCheck } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { type NumberRun, nextFree, runsOf } from '#lib/payment/check-numbers.ts';
import { checkNumberIn } from '#lib/payment/decide-payment.ts';

const findNumbers = query(({ db }) => db.select({ number: sellerCheck.number }).from(sellerCheck));

const findChecksOut = query(({ db }) =>
  db
    .select(pick(livePayment, ['direction', 'method', 'reference']))
    .from(livePayment)
    .where(and(eq(livePayment.direction, 'out'), eq(livePayment.method, 'check'))),
);

/**
 * The check numbers that are used up, in all sales, because the association has one account: those of the register, also
 * of void checks, and those of checks recorded by hand.
 */
export function takenCheckNumbers(book: Book): Set<number> {
  const written = findNumbers(book).all();
  const byHand = findChecksOut(book).all();
  return new Set([...written.map(({ number }) => number), ...byHand.flatMap((check) => checkNumberIn(check) ?? [])]);
}

const newestNumber = query(({ db }) =>
  db
    .select(pick(sellerCheck, ['number']))
    .from(sellerCheck)
    .innerJoin(payment, eq(payment.id, sellerCheck.paymentId))
    .orderBy(desc(payment.paidAt), desc(sellerCheck.number))
    .limit(1),
);

/** What the form for checks starts from. */
export interface CheckNumbers {
  /** The number that the next check is likely to bear: the next free one behind the check that was written last. */
  readonly likely: number;
  readonly taken: readonly NumberRun[];
}

/** The numbers of the association's one account, over all sales. An older pile may have had higher ones. */
export function checkNumbers(book: Book): CheckNumbers {
  const taken = runsOf(takenCheckNumbers(book));
  return { likely: nextFree((newestNumber(book).get()?.number ?? 1000) + 1, taken), taken };
}

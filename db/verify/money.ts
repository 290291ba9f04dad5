/** The money of every sale in the book, checked by the rules of `lib/invariants.ts`. */
import { asc } from 'drizzle-orm';
import { moneyProblems } from '#lib/invariants.ts';
import type { Book } from '../open.ts';
import { saleFacts } from '../queries/sale-facts.ts';
import { sale } from '../schema/index.ts';
import { messageOf } from './chain.ts';
import type { VerifyReport } from './report.ts';

export function checkMoney(book: Book): VerifyReport['money'] {
  try {
    const sales = book.db
      .select({ id: sale.id, name: sale.name, heldOn: sale.heldOn })
      .from(sale)
      .orderBy(asc(sale.id))
      .all();
    const problems = sales.flatMap((one) =>
      problemsOf(book, one).map((problem) => `${one.name} of ${one.heldOn}: ${problem}`),
    );
    const [first] = problems;
    return {
      ok: !first,
      message: first ?? `The money of ${sales.length} sales adds up.`,
      sales: sales.length,
      problems,
    };
  } catch (fault) {
    const message = `The sales cannot be read: ${messageOf(fault)}.`;
    return { ok: false, message, sales: 0, problems: [message] };
  }
}

/** A sale that cannot even be read, such as one with half a cent in it, is a finding and no fault. */
function problemsOf(book: Book, { id }: { readonly id: number }): string[] {
  try {
    return moneyProblems(saleFacts(book, id));
  } catch (fault) {
    return [`it cannot be settled: ${messageOf(fault)}.`];
  }
}

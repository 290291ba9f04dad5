/** What a filled book holds, in a few plain lines. */
import { logHead } from '#db/log.ts';
import type { Book } from '#db/open.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import { sale } from '#db/schema/index.ts';
import type { SaleFacts } from '#lib/facts.ts';
import { invoiceSale } from '#lib/invoice.ts';
import { showMoney, sumCents } from '#lib/money.ts';
import { ASSOCIATION } from './association.ts';

export function summaryOf(book: Book): string[] {
  const sales = book.db.select({ id: sale.id, stage: sale.stage }).from(sale).orderBy(sale.heldOn).all();
  const { seq, hash } = logHead(book);
  return [
    `${ASSOCIATION.name}, an invented association. All people and prices are invented too.`,
    ...sales.map(({ id, stage }) => `  ${lineOf(saleFacts(book, id), stage)}`),
    `${seq} entries in the log, which ends in ${hash.slice(0, 12)}.`,
  ];
}

function lineOf(facts: SaleFacts, stage: string): string {
  const { lots, sellers, buyers, outcomes } = facts;
  const { name, heldOn } = facts.sale;
  const pieces = lots.reduce((so, { count }) => so + (count ?? 0), 0);
  const sold = outcomes.filter(({ kind }) => kind === 'sold').length;
  const total = showMoney(sumCents(invoiceSale(facts).map(({ totalCents }) => totalCents)));
  const who = `${sellers.length} sellers, ${buyers.length} buyers`;
  return `${name} (${heldOn}, ${stage}): ${who}, ${lots.length} lots with ${pieces} pieces, ${sold} sold for ${total}.`;
}

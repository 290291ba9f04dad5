/** `tsx seed/fill.ts <book file>`: makes a new book and fills it with the demo. */
import { existsSync, rmSync } from 'node:fs';
import { logHead } from '#db/book/log.ts';
import { type Book, openBook } from '#db/book/open.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { sale } from '#db/schema/index.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { showMoney, sumCents } from '#lib/money/money.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { ASSOCIATION } from './association.ts';
import { addDemoWorker, DEMO_WORKER } from './calendar.ts';
import { fillBook } from './hold-sale.ts';

const COMPANIONS = ['', '-wal', '-shm', '.sign-ins', '.sign-ins-wal', '.sign-ins-shm'];

async function fill(file: string): Promise<void> {
  const book = openBook(file, { create: true });
  try {
    // Nobody misses a demo that a power cut takes: only the finished book has to be on the disk.
    book.sqlite.pragma('synchronous = OFF');
    fillBook(book);
    await addDemoWorker(book);
    book.sqlite.pragma('synchronous = FULL');
    book.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    for (const line of summaryOf(book)) console.log(line);
    console.log(`Sign in as ${DEMO_WORKER.name} with the passphrase: ${DEMO_WORKER.passphrase}`);
    book.close();
  } catch (fault) {
    book.close();
    // A half-filled book is no use to anybody, and would only stand in the way of the next try.
    for (const companion of COMPANIONS) rmSync(`${file}${companion}`, { force: true });
    throw fault;
  }
}

function summaryOf(book: Book): string[] {
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

const [file] = process.argv.slice(2);
if (file === undefined) {
  console.error('Say which file to make: tsx seed/fill.ts <book file>');
  process.exitCode = 2;
} else if (existsSync(file)) {
  console.error(`There is already a file at ${file}. Name another, or move it away first.`);
  process.exitCode = 1;
} else {
  await fill(file);
}

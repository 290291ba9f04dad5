/** `tsx seed/big.ts <book file> [lots] [called]`: makes a new book with one sale that is larger than any the trade has. */
import { existsSync } from 'node:fs';
import { submit } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { ASSOCIATION } from './association.ts';
import { bigFolder } from './big-folder.ts';

const AT = '2026-02-28T18:00:00.000Z';
const WORKER = 'Idris Bekelo';

function make(file: string, { lots, called }: { readonly lots: number; readonly called: number }): void {
  const book = openBook(file, { create: true });
  const office = { worker: WORKER, station: 'office', at: AT } as const;
  submit(book, { ...office, command: 'association.set', input: ASSOCIATION, key: 'large-1' });
  const folder = bigFolder({ lots, called, sellers: Math.ceil(lots / 20), buyers: Math.ceil(lots / 200) });
  const done = importFolder(book, folder, { worker: WORKER, at: AT });
  if (!done.ok) throw new Error(done.problems.slice(0, 5).join('\n'));
  console.log(`${done.lots} lots, ${done.people} people, stage ${done.stage}.`);
  book.close();
}

const [file, lots = '100000', called] = process.argv.slice(2);
if (file === undefined || existsSync(file)) {
  console.error('Say which file to make, where there is none yet: tsx seed/big.ts <book file> [lots] [called]');
  process.exitCode = 2;
} else {
  const wanted = Number.parseInt(lots, 10);
  make(file, { lots: wanted, called: Number.parseInt(called ?? String(Math.floor(wanted * 0.9)), 10) });
}

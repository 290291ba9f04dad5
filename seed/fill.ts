/** `tsx seed/fill.ts <book file>`: makes a new book and fills it with the demo. */
import { existsSync, rmSync } from 'node:fs';
import { openBook } from '#db/open.ts';
import { addDemoWorker, DEMO_WORKER } from './demo-worker.ts';
import { fillBook } from './fill-book.ts';
import { summaryOf } from './summary.ts';

const COMPANIONS = ['', '-wal', '-shm'];

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

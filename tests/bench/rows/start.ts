/** From the start of the server to its first page, and its memory at rest over a large book, beside an empty Next application. */
import { setTimeout as sleep } from 'node:timers/promises';
import { bookOf, newFile, sizeOf } from '../big-book.ts';
import { median } from '../figures.ts';
import type { Bench, Line } from '../row.ts';
import { type Served, serveBare, serveOurs } from '../server.ts';
import { shown } from '../table.ts';

interface Start {
  readonly ms: number;
  readonly memory: number;
}

const row = async (bench: Bench): Promise<Line[]> => {
  const lots = bench.short ? 1000 : 100_000;
  const file = newFile();
  bookOf(sizeOf(lots, Math.floor(lots * 0.9)), file).close();
  const pairs: { ours: Start; bare: Start }[] = [];
  for (let run = 0; run <= bench.runs; run += 1) {
    const pair = { ours: await start(() => serveOurs(file, '/block')), bare: await start(() => serveBare()) };
    if (run > 0) pairs.push(pair);
  }
  const middle = (pick: (pair: (typeof pairs)[number]) => number) => shown(median(pairs.map(pick)));
  return [
    {
      what: `from the start to the first page of the Block, a book of ${lots} lots`,
      against: 'the time of an empty application of the same Next',
      figures: pairs.map(({ ours, bare }) => ours.ms / bare.ms),
      unit: '×',
      target: { atMost: 1.5 },
      seen: `${middle(({ ours }) => ours.ms)} ms, empty ${middle(({ bare }) => bare.ms)} ms`,
    },
    {
      what: `memory at rest after that page, a book of ${lots} lots`,
      against: 'the memory of an empty application of the same Next',
      figures: pairs.map(({ ours, bare }) => ours.memory / bare.memory),
      unit: '×',
      target: { atMost: 1.5 },
      seen: `${middle(({ ours }) => ours.memory)} MB, empty ${middle(({ bare }) => bare.memory)} MB`,
    },
  ];
};

export default row;

async function start(serve: () => Promise<Served>): Promise<Start> {
  const served = await serve();
  await sleep(1000);
  const memory = served.memory();
  await served.stop();
  return { ms: served.startedIn, memory };
}

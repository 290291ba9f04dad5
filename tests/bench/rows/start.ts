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

/** Until then what is asked first has been made ready, and the memory that took is given back. */
const REST_MS = 25_000;

const row = async (bench: Bench): Promise<Line[]> => {
  const lots = bench.short ? 1000 : 10_000;
  const file = newFile();
  bookOf(sizeOf(lots, Math.floor(lots * 0.9)), file).close();
  const pairs: { ours: Start; bare: Start }[] = [];
  for (let run = 0; run <= bench.runs; run += 1) {
    // The bare one first: it does nothing after its page, while ours goes on.
    const [bare, ours] = [await serveBare(), await serveOurs(file, '/block')];
    await sleep(bench.short ? 1000 : REST_MS);
    if (run > 0) pairs.push({ ours: asItRests(ours), bare: asItRests(bare) });
    await Promise.all([ours.stop(), bare.stop()]);
  }
  const middle = (pick: (pair: (typeof pairs)[number]) => number) => shown(median(pairs.map(pick)));
  return [
    {
      what: `from the start to the first page of the Block, a book of ${lots} lots`,
      against: 'the time of an empty application of the same Next',
      figures: pairs.map(({ ours, bare }) => ours.ms / bare.ms),
      unit: '×',
      target: { atMost: 1.3 },
      seen: `${middle(({ ours }) => ours.ms)} ms, empty ${middle(({ bare }) => bare.ms)} ms`,
    },
    {
      what: `memory at rest, ${REST_MS / 1000} seconds after that page, a book of ${lots} lots`,
      against: 'the memory of an empty application of the same Next',
      figures: pairs.map(({ ours, bare }) => ours.memory / bare.memory),
      unit: '×',
      target: { atMost: 1.3 },
      seen: `${middle(({ ours }) => ours.memory)} MB, empty ${middle(({ bare }) => bare.memory)} MB`,
    },
  ];
};

export default row;

function asItRests({ startedIn, memory }: Served): Start {
  return { ms: startedIn, memory: memory() };
}

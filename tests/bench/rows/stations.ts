/**
 * Every station over a book of 100,000 lots, 5,000 sellers and 500 buyers, used as by hand: each page asked for the
 * first time after a start and again, each act, and what the open stations read again after it. Beside it the same over
 * a tenth of the lots, so that the growth is seen. The book is filled once and copied for each run.
 */
import { copyFileSync } from 'node:fs';
import { type Act, BUYER, type Ground, SELLER, STATIONS } from '../at-the-stations.ts';
import { bookOf, newFile, sizeOf } from '../big-book.ts';
import { median } from '../figures.ts';
import { preparedGround } from '../prepared-ground.ts';
import type { Bench, Line } from '../row.ts';
import { type Served, serveOurs } from '../server.ts';
import { shown } from '../table.ts';

/** What one run has seen: milliseconds under a name, and which page was the slowest of those behind the name. */
type Seen = Map<string, One>;

interface One {
  readonly ms: number;
  /** Empty where it is no page. */
  readonly page: string;
}

const row = async (bench: Bench): Promise<Line[]> => {
  const lots = bench.short ? 20_000 : 100_000;
  const [large, small] = [await measured(bench, lots), await measured(bench, lots / 10)];
  return [...(large[0]?.keys() ?? [])].map((what) => {
    const of = (runs: readonly Seen[]) => runs.flatMap((seen) => seen.get(what) ?? []);
    const [own, few] = [of(large), of(small)];
    const slowest = [...own].sort((a, b) => b.ms - a.ms)[0]?.page ?? '';
    const behind = slowest === '' ? '' : `the slowest is ${slowest}; `;
    return {
      what: `${what}, ${lots} lots`,
      against: `${lots / 10} lots, in brackets`,
      figures: own.map(({ ms }) => ms),
      unit: 'ms',
      target: { atMost: ALWAYS_QUICK.test(what) ? QUICK_MS : WHOLE_SALE_MS },
      seen: `${behind}(${shown(median(few.map(({ ms }) => ms)))} ms)`,
    };
  });
};

export default row;

/** The Block and the Till are as quick at any size; the others read a whole sale, which may be a hundred thousand lots. */
const ALWAYS_QUICK = /^(Block|Till): (?!.*read again)/;
const QUICK_MS = 200;
const WHOLE_SALE_MS = 2000;
const LATER_READS = 3;

async function measured({ runs }: Bench, lots: number): Promise<Seen[]> {
  const filled = newFile();
  const book = bookOf(sizeOf(lots, Math.floor(lots * 0.9)), filled);
  const ground = preparedGround(book, { lots, seller: SELLER, buyer: BUYER });
  book.close();
  const all: Seen[] = [];
  for (let run = 0; run < runs; run += 1) {
    const file = newFile();
    copyFileSync(filled, file);
    const served = await serveOurs(file, '/api/live/line');
    const seen: Seen = new Map();
    await readPages(served, seen);
    await doActs(served, seen, ground);
    await served.stop();
    all.push(seen);
  }
  return all;
}

/** The slowest of those that were noted under one name. */
function note(seen: Seen, what: string, one: One): void {
  const before = seen.get(what);
  if (!before || before.ms < one.ms) seen.set(what, one);
}

async function readPages({ url }: Served, seen: Seen): Promise<void> {
  for (const { name, pages } of STATIONS) {
    for (const page of pages) {
      note(seen, `${name}: pages, the first time after the start`, { ms: await timeOf(`${url}${page}`), page });
    }
  }
  for (const { name, pages } of STATIONS) {
    for (const page of pages) {
      const later: number[] = [];
      for (let read = 0; read < LATER_READS; read += 1) later.push(await timeOf(`${url}${page}`));
      note(seen, `${name}: pages, later`, { ms: median(later), page });
    }
  }
}

async function doActs({ url }: Served, seen: Seen, ground: Ground): Promise<void> {
  for (const { name, acts } of STATIONS) {
    let before: Readonly<Record<string, unknown>> = {};
    for (const act of acts) {
      const from = performance.now();
      before = await giveTo(url, act, act.input(ground, before));
      note(seen, `${name}: ${act.what}`, { ms: performance.now() - from, page: '' });
      for (const page of act.again)
        note(seen, `${name}: ${act.what}, read again`, { ms: await timeOf(`${url}${page}`), page });
    }
  }
}

let keys = 0;

async function giveTo(url: string, { command, station }: Act, input: object): Promise<Record<string, unknown>> {
  keys += 1;
  const headers = { 'content-type': 'application/json', 'idempotency-key': `stations-${keys}`, 'x-station': station };
  const body = JSON.stringify(input);
  const answer = await fetch(`${url}/api/commands/${command}`, {
    method: 'POST',
    headers: { ...headers, origin: url },
    body,
  });
  const text = await answer.text();
  if (!answer.ok) throw new Error(`${command} was answered with ${answer.status}: ${text}`);
  return (JSON.parse(text) as { readonly value: Record<string, unknown> }).value;
}

/** To the last byte. */
async function timeOf(address: string): Promise<number> {
  const from = performance.now();
  const answer = await fetch(address);
  await answer.arrayBuffer();
  if (!answer.ok) throw new Error(`${address} was answered with ${answer.status}.`);
  return performance.now() - from;
}

/** A hammer entry over HTTP beside a bare application of the same Next that commits the same rows with no door. */

import { median, percentile } from '#tests/bench/figures.ts';
import type { Bench, Line } from '#tests/bench/row.ts';
import { sellingFile } from '#tests/bench/selling.ts';
import { allGood, hammerEntry, Senders } from '#tests/bench/senders.ts';
import { serveBare, serveOurs } from '#tests/bench/server.ts';
import { shown } from '#tests/bench/table.ts';
import { bigLotNo } from '#tests/support/big-folder.ts';

const CONNECTIONS = [10, 50];

interface Round {
  readonly rate: number;
  readonly p99: number;
}

const row = async (bench: Bench): Promise<Line[]> => {
  const entries = bench.short ? 100 : 1500;
  const lots = entries * (bench.runs + 1) * CONNECTIONS.length;
  const [ourFile, bareFile] = [sellingFile(lots), sellingFile(lots)];
  const ours = await serveOurs(ourFile, '/block');
  const bare = await serveBare(bareFile);
  let lot = 0;
  const lines: Line[] = [];
  for (const connections of CONNECTIONS) {
    const pairs: { ours: Round; bare: Round }[] = [];
    for (let run = 0; run <= bench.runs; run += 1) {
      const numbers = Array.from({ length: entries }, () => {
        lot += 1;
        return lot;
      });
      const our = await round(
        connections,
        numbers.map((no) => hammerEntry(ours.url, bigLotNo(no), `bench-${no}-key`)),
      );
      const plain = numbers.map((no) => ({ url: `${bare.url}/bare`, body: JSON.stringify({ lotNo: String(no) }) }));
      pairs.push({ ours: our, bare: await round(connections, plain) });
    }
    // The first round is cold on both sides.
    lines.push(...linesOf(connections, pairs.slice(1)));
  }
  await Promise.all([ours.stop(), bare.stop()]);
  return lines;
};

export default row;

function linesOf(connections: number, pairs: readonly { ours: Round; bare: Round }[]): Line[] {
  const middle = (pick: (pair: (typeof pairs)[number]) => number) => shown(median(pairs.map(pick)));
  return [
    {
      what: `a hammer entry over HTTP, ${connections} connections`,
      against: 'the rate of a bare application of the same Next with the same commit and no door',
      figures: pairs.map(({ ours, bare }) => ours.rate / bare.rate),
      unit: '×',
      target: { atLeast: 0.85 },
      seen: `${middle(({ ours }) => ours.rate)} a second, bare ${middle(({ bare }) => bare.rate)}`,
    },
    {
      what: `a hammer entry over HTTP, ${connections} connections, the slowest in a hundred`,
      against: 'bare, in brackets',
      figures: pairs.map(({ ours }) => ours.p99),
      unit: 'ms',
      ...(connections === 50 ? { target: { atMost: 100 } } : {}),
      seen: `(bare ${middle(({ bare }) => bare.p99)} ms)`,
    },
  ];
}

async function round(connections: number, posts: Parameters<Senders['all']>[0]): Promise<Round> {
  const senders = new Senders(connections);
  // The connections are made before the clock runs: Node takes one new one a turn, and those of a hall are kept.
  const first = await senders.all(posts.slice(0, connections));
  const { ms, sent } = await senders.all(posts.slice(connections));
  senders.close();
  allGood([...first.sent, ...sent]);
  return {
    rate: (sent.length * 1000) / ms,
    p99: percentile(
      sent.map((one) => one.ms),
      0.99,
    ),
  };
}

/** Two hundred watchers: from the moment an entry is sent to the moment each of them has heard of it. */
import { setTimeout as sleep } from 'node:timers/promises';
import { median, percentile } from '#tests/bench/figures.ts';
import type { Bench, Line } from '#tests/bench/row.ts';
import { sellingFile } from '#tests/bench/selling.ts';
import { allGood, hammerEntry, Senders } from '#tests/bench/senders.ts';
import { serveOurs } from '#tests/bench/server.ts';
import { shown } from '#tests/bench/table.ts';
import { Watchers } from '#tests/bench/watchers.ts';
import { bigLotNo } from '#tests/support/big-folder.ts';

const WATCHERS = 200;

const row = async (bench: Bench): Promise<Line[]> => {
  const entries = bench.short ? 3 : 40;
  const ours = await serveOurs(sellingFile(entries * (bench.runs + 1)), '/block');
  const watchers = new Watchers();
  await watchers.open(ours.url, WATCHERS);
  const senders = new Senders(1);
  const runs: number[][] = [];
  // The import and the opening of the sale are the first two lines.
  let line = 2;
  for (let run = 0; run <= bench.runs; run += 1) {
    const taken: number[] = [];
    for (let at = 0; at < entries; at += 1) {
      line += 1;
      watchers.expect(line);
      const from = performance.now();
      allGood([await senders.post(hammerEntry(ours.url, bigLotNo(line - 2), `bench-${line}-key`))]);
      while ((watchers.heard.get(line)?.length ?? 0) < WATCHERS) await sleep(2);
      taken.push(...(watchers.heard.get(line) ?? []).map((heard) => heard - from));
    }
    if (run > 0) runs.push(taken);
  }
  watchers.close();
  senders.close();
  await ours.stop();
  return [
    {
      what: `${WATCHERS} watchers: from sending an entry to the event, the slowest in a hundred`,
      against: '–',
      figures: runs.map((taken) => percentile(taken, 0.99)),
      unit: 'ms',
      target: { atMost: 250 },
      seen: `median ${shown(median(runs.flat()))} ms`,
    },
  ];
};

export default row;

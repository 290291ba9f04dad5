/** Twenty clerks at ten times the real pace beside fifty streams, for a minute. */
import { readdirSync, statSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { median, percentile } from '#tests/bench/figures.ts';
import type { Bench, Line } from '#tests/bench/row.ts';
import { sellingFile } from '#tests/bench/selling.ts';
import { hammerEntry, Senders, type Sent } from '#tests/bench/senders.ts';
import { serveOurs } from '#tests/bench/server.ts';
import { shown } from '#tests/bench/table.ts';
import { Watchers } from '#tests/bench/watchers.ts';
import { bigLotNo } from '#tests/support/big-folder.ts';

const CLERKS = 20;
const STREAMS = 50;
/** A real lot takes fifteen seconds. */
const PACE_MS = 1500;

const row = async (bench: Bench): Promise<Line[]> => {
  const rounds = bench.short ? 2 : 40;
  const minutes = bench.short ? 1 : Math.min(bench.runs, 5);
  const file = sellingFile(CLERKS * rounds * minutes);
  const ours = await serveOurs(file, '/block');
  const watchers = new Watchers();
  await watchers.open(ours.url, STREAMS);
  const senders = new Senders(CLERKS);
  const before = ours.memory();
  const runs: { sent: Sent[]; wal: number; memory: number }[] = [];
  let lot = 0;
  for (let minute = 0; minute < minutes; minute += 1) {
    const sent: Sent[] = [];
    const clerk = async (number: number) => {
      await sleep((number * PACE_MS) / CLERKS);
      for (let round = 0; round < rounds; round += 1) {
        lot += 1;
        const taken = await senders.post(hammerEntry(ours.url, bigLotNo(lot), `bench-${lot}-key`));
        sent.push(taken);
        await sleep(Math.max(0, PACE_MS - taken.ms));
      }
    };
    await Promise.all(Array.from({ length: CLERKS }, (_, number) => clerk(number)));
    runs.push({ sent, wal: walBytes(file), memory: ours.memory() });
  }
  watchers.close();
  senders.close();
  await ours.stop();
  const what = `${CLERKS} clerks at ten times the real pace, ${STREAMS} streams, a minute`;
  return [
    {
      what: `${what}: the slowest in a hundred`,
      against: '–',
      figures: runs.map(({ sent }) =>
        percentile(
          sent.map(({ ms }) => ms),
          0.99,
        ),
      ),
      unit: 'ms',
      target: { atMost: 100 },
      seen: `median ${shown(median(runs.flatMap(({ sent }) => sent.map(({ ms }) => ms))))} ms`,
    },
    {
      what: `${what}: answers other than 200`,
      against: '–',
      figures: runs.map(({ sent }) => sent.filter(({ status }) => status !== 200).length),
      unit: '',
      target: { atMost: 0 },
      seen: `${runs.reduce((sum, { sent }) => sum + sent.length, 0)} entries`,
    },
    {
      what: `${what}: the write-ahead log after it`,
      against: '–',
      figures: runs.map(({ wal }) => wal / 1e6),
      unit: 'MB',
      target: { atMost: 16 },
      seen: '',
    },
    {
      what: `${what}: memory of the server after it`,
      against: 'before the first minute',
      figures: runs.map(({ memory }) => memory / before),
      unit: '×',
      target: { atMost: 1.5 },
      seen: `${shown(before)} MB before`,
    },
  ];
};

export default row;

function walBytes(file: string): number {
  const folder = file.replace(/\/[^/]+$/, '');
  return readdirSync(folder)
    .filter((name) => name.endsWith('-wal'))
    .reduce((sum, name) => sum + statSync(`${folder}/${name}`).size, 0);
}

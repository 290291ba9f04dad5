/** Every station's pages over a book of 100,000 lots, 5,000 sellers and 500 buyers: the time to the first byte. */
import { bookOf, newFile, sizeOf } from '../big-book.ts';
import { median } from '../figures.ts';
import type { Bench, Line } from '../row.ts';
import { type Served, serveBare, serveOurs } from '../server.ts';
import { shown } from '../table.ts';

const PAGES = [
  ...['/', '/intake', '/intake/seller/17', '/intake/lot/12', '/intake/holds', '/intake/tickets'],
  ...['/block', '/block/left', '/board', '/board/seller?seller=17'],
  ...['/till', '/till/3', '/till/3/invoice', '/till/3/hand-over', '/till/3/record', '/till/drawer'],
  ...['/payout', '/payout/17', '/payout/checks', '/payout/balance', '/payout/kept', '/payout/after'],
  ...['/prices', '/prices/raccoon', '/prices/mine', '/prices/report'],
  ...['/office', '/office/log', '/office/people', '/office/workers', '/office/backups'],
];

const row = async (bench: Bench): Promise<Line[]> => {
  const lots = bench.short ? 1000 : 100_000;
  const file = newFile();
  bookOf(sizeOf(lots, Math.floor(lots * 0.9)), file).close();
  const bare = await serveBare();
  const empty = await times(bench, bare, '/');
  await bare.stop();
  const ours = await serveOurs(file);
  const lines: Line[] = [];
  for (const page of PAGES) {
    const seen = await times(bench, ours, page);
    lines.push({
      what: `${page}, a book of ${lots} lots, to the first byte`,
      against: 'an empty page of the same Next, in brackets',
      figures: seen.map(({ first }) => first),
      unit: 'ms',
      target: { atMost: 300 },
      seen: `${shown(median(seen.map(({ bytes }) => bytes)) / 1000)} kB (empty ${shown(median(empty.map(({ first }) => first)))} ms)`,
    });
  }
  await ours.stop();
  return lines;
};

export default row;

async function times({ runs }: Bench, { url }: Served, page: string) {
  const seen: { first: number; bytes: number }[] = [];
  for (let run = 0; run <= runs; run += 1) {
    const from = performance.now();
    const answer = await fetch(`${url}${page}`);
    const first = performance.now() - from;
    const bytes = (await answer.arrayBuffer()).byteLength;
    if (!answer.ok) throw new Error(`${page} answered ${answer.status}.`);
    // The first of all is read cold.
    if (run > 0) seen.push({ first, bytes });
  }
  return seen;
}

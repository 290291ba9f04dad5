/** Settlement sheets in one PDF, beside bare pdfkit setting the same words at the same places in the same typeface. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { previewSheets } from '#db/settlement/sheets.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { bookOf, newFile, sizeOf } from '#tests/bench/big-book.ts';
import { doubling, median } from '#tests/bench/figures.ts';
import { wordsOf } from '#tests/bench/papers/words.ts';
import type { Bench, Line } from '#tests/bench/row.ts';
import { ROOT } from '#tests/bench/server.ts';
import { shown } from '#tests/bench/table.ts';
import { bundlePrograms } from '../../../.ci/build.mjs';

/** They fill one page. */
const LOTS_A_SHEET = 8;

interface Run {
  readonly ours: number;
  readonly bare: number;
  readonly peak: number;
}

interface Measured {
  readonly sheets: number;
  readonly pages: number;
  readonly runs: readonly Run[];
}

const row = async (bench: Bench): Promise<Line[]> => {
  await bundlePrograms();
  const sizes = bench.short ? [2, 6, 12] : [10, 100, 1000];
  const all = sheetsOf(sizes.at(-1) ?? 0);
  const measured = sizes.map((size) => measure(bench, all.slice(0, size)));
  return [...measured.map(ratioOf), growthOf(measured), memoryOf(measured)];
};

export default row;

function sheetsOf(sellers: number): SettlementSheet[] {
  const lots = sellers * LOTS_A_SHEET;
  const book = bookOf({ ...sizeOf(lots), sellers });
  const sheets = previewSheets(book, 1, '2026-03-01');
  book.close();
  return sheets;
}

/** Each drawing is a process of its own that has drawn a few pages before, so that no run is thrown away. */
function measure({ runs }: Bench, sheets: readonly SettlementSheet[]): Measured {
  const [models, ours, words, bare] = ['sheets.json', 'ours.pdf', 'words.json', 'bare.pdf'].map((name) =>
    newFile(name),
  ) as [string, string, string, string];
  writeFileSync(models, JSON.stringify(sheets));
  let pages = 0;
  const taken = Array.from({ length: runs }, (): Run => {
    const drawn = drawnBy(['--import', 'tsx', `${ROOT}tests/bench/papers/draw-ours.ts`, models, ours]);
    if (pages === 0) pages = keepWords(ours, words);
    const plain = drawnBy([`${ROOT}tests/bench/papers/draw-bare.mjs`, words, bare]);
    return { ours: drawn.ms, bare: plain.ms, peak: drawn.peakMegabytes ?? 0 };
  });
  return { sheets: sheets.length, pages, runs: taken };
}

/** The words that we printed, for the bare library to print; gives how many pages they fill. */
function keepWords(pdf: string, words: string): number {
  const pages = wordsOf(pdf);
  writeFileSync(words, JSON.stringify(pages));
  return pages.length;
}

interface Drawn {
  readonly ms: number;
  readonly peakMegabytes?: number;
}

function drawnBy(args: readonly string[]): Drawn {
  const ran = spawnSync(process.execPath, args, { cwd: ROOT, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
  if (ran.status !== 0) throw new Error('The sheets could not be drawn.');
  return JSON.parse(ran.stdout) as Drawn;
}

function ratioOf({ sheets, pages, runs }: Measured): Line {
  const perPage = (pick: (run: Run) => number) => `${shown(median(runs.map(pick)) / pages)} ms a page`;
  return {
    what: `${sheets} settlement sheets (${pages} pages) in one PDF`,
    against: 'the time of bare pdfkit setting the same words at the same places',
    figures: runs.map(({ ours, bare }) => ours / bare),
    unit: '×',
    seen: `${perPage(({ ours }) => ours)}, bare ${perPage(({ bare }) => bare)}; ${shown(median(runs.map(({ peak }) => peak)))} MB at the most`,
  };
}

function growthOf(measured: readonly Measured[]): Line {
  const runs = measured[0]?.runs ?? [];
  return {
    what: `settlement sheets: twice the pages, from ${measured[0]?.pages} to ${measured.at(-1)?.pages}`,
    against: 'the time of half of them',
    figures: runs.map((_, run) =>
      doubling(measured.map((one) => ({ size: one.pages, took: one.runs[run]?.ours ?? 0 }))),
    ),
    unit: '×',
    target: { atMost: 2.1 },
    seen: '',
  };
}

function memoryOf(measured: readonly Measured[]): Line {
  const [first, last] = [measured[0], measured.at(-1)];
  const peaks = (last?.runs ?? []).map(({ peak }, run) => peak / (first?.runs[run]?.peak ?? 0));
  return {
    what: `the most memory that ${last?.sheets} settlement sheets take`,
    against: `the most that ${first?.sheets} take`,
    figures: peaks,
    unit: '×',
    target: { atMost: 1.5 },
    seen: 'the process that draws, with everything in it',
  };
}

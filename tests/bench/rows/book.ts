/** A whole sale read in, written out, verified and backed up, each beside what bare SQLite takes for the same rows. */
import { rmSync } from 'node:fs';
import { backupBook } from '#db/book/backup.ts';
import { openBook } from '#db/book/open.ts';
import { folderTexts, writeFolder } from '#db/exchange/export-sale.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { AT, newFile, sizeOf } from '#tests/bench/big-book.ts';
import { insertAll, rowsToCopy, SALE_TABLES } from '#tests/bench/copy-rows.ts';
import { doubling, median } from '#tests/bench/figures.ts';
import { type Bench, type Line, repeatedLater, timed, timedLater } from '#tests/bench/row.ts';
import { shown } from '#tests/bench/table.ts';
import { bigFolder } from '#tests/support/big-folder.ts';

const JOBS = ['import', 'export', 'verify', 'backup'] as const;
type Job = (typeof JOBS)[number];
type Times = Record<Job | 'inserts' | 'vacuum', number>;

const AGAINST: Record<Job, { readonly bare: 'inserts' | 'vacuum'; readonly words: string }> = {
  import: { bare: 'inserts', words: 'the time of one transaction of bare inserts of the same rows' },
  export: { bare: 'inserts', words: 'the time of one transaction of bare inserts of the same rows' },
  verify: { bare: 'inserts', words: 'the time of one transaction of bare inserts of the same rows' },
  backup: { bare: 'vacuum', words: 'the time of `VACUUM INTO` a file' },
};

const row = async (bench: Bench): Promise<Line[]> => {
  const sizes = bench.short ? [250, 500] : [5000, 50_000];
  const measured: { lots: number; runs: Times[] }[] = [];
  for (const lots of sizes) measured.push({ lots, runs: await repeatedLater(bench, () => once(lots)) });
  return JOBS.flatMap((job) => [...measured.map((one) => ratioOf(job, one)), growthOf(job, measured)]);
};

export default row;

function ratioOf(job: Job, { lots, runs }: { lots: number; runs: readonly Times[] }): Line {
  const { bare, words } = AGAINST[job];
  const ms = (name: keyof Times) => `${shown(median(runs.map((one) => one[name])))} ms`;
  return {
    what: `${job}, a sale of ${lots} lots`,
    against: words,
    figures: runs.map((one) => one[job] / one[bare]),
    unit: '×',
    seen: `${ms(job)}, bare ${ms(bare)}`,
  };
}

function growthOf(job: Job, measured: readonly { lots: number; runs: readonly Times[] }[]): Line {
  const runs = measured[0]?.runs ?? [];
  return {
    what: `${job}: twice the lots, from ${measured[0]?.lots} to ${measured.at(-1)?.lots}`,
    against: 'the time of half of them',
    figures: runs.map((_, run) =>
      doubling(measured.map((one) => ({ size: one.lots, took: one.runs[run]?.[job] ?? 0 }))),
    ),
    unit: '×',
    target: { atMost: 2.1 },
    seen: '',
  };
}

async function once(lots: number): Promise<Times> {
  const folder = bigFolder(sizeOf(lots));
  const file = newFile();
  const book = openBook(file, { create: true });
  const imported = timed(() => {
    const done = importFolder(book, folder, { worker: 'bench', at: AT });
    if (!done.ok) throw new Error(done.problems[0]);
  });
  const out = newFile('folder');
  const exported = timed(() => writeFolder(out, folderTexts(book, 1)));
  const rows = rowsToCopy(book.sqlite, SALE_TABLES);
  const vacuumed = newFile('vacuumed.book');
  const vacuum = timed(() => book.sqlite.prepare('VACUUM INTO ?').run(vacuumed));
  book.close();
  const verify = timed(() => {
    const report = verifyBook(file);
    if (!report.ok) throw new Error(report.problems[0]);
  });
  const copy = newFile('copy.book');
  const backup = await timedLater(() => backupBook(file, copy));
  const bareFile = newFile('bare.book');
  const bare = openBook(bareFile, { create: true });
  const inserts = timed(() => insertAll(bare.sqlite, rows));
  bare.close();
  for (const made of [file, out, vacuumed, copy, bareFile]) rmSync(made, { recursive: true });
  return { import: imported, export: exported, verify, backup, inserts, vacuum };
}

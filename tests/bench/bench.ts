/**
 * `npm run bench -- [rows…] [--short] [--runs=5]`: measures the rows, each in a process of its own, and prints the table.
 * Whole sizes go into docs/performance.md; short ones only show that a row works.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { busyCores, machineWords } from './machine.ts';
import type { Bench, Line } from './row.ts';
import { pageWith, tableText } from './table.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PAGE = join(ROOT, 'docs/performance.md');

/** In the order in which they stand on the page. */
const ORDER = [
  'door',
  'http',
  'hall',
  'settle',
  'prices',
  'sheets',
  'book',
  'replay',
  'live',
  'stations',
  'pages',
  'start',
];

function rowNames(): string[] {
  const files = readdirSync(join(ROOT, 'tests/bench/rows')).map((name) => name.replace(/\.ts$/, ''));
  return [...ORDER, ...files.filter((name) => !ORDER.includes(name)).sort()].filter((name) => files.includes(name));
}

/** From so many busy cores on, other work takes so much of a machine that a time says little; a ratio says more. */
const QUIET = 0.5;

function measure(name: string, bench: Bench, busy: number): readonly Line[] {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  try {
    const result = join(folder, 'result.json');
    const args = ['--expose-gc', '--import', 'tsx', 'tests/bench/measure-row.ts', name, JSON.stringify(bench), result];
    const env = { ...process.env, TMPDIR: folder };
    const ran = spawnSync(process.execPath, args, { cwd: ROOT, env, stdio: ['ignore', 'inherit', 'inherit'] });
    if (ran.status !== 0) throw new Error(`The row ${name} could not be measured.`);
    const lines = JSON.parse(readFileSync(result, 'utf8')) as Line[];
    const others = `(busy machine: ${busy.toFixed(1)} cores)`;
    return busy < QUIET ? lines : lines.map((line) => ({ ...line, seen: `${line.seen} ${others}`.trim() }));
  } finally {
    // A copy of the book that a server has begun may still be writing there.
    rmSync(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 250 });
  }
}

async function main(args: readonly string[]): Promise<void> {
  const asked = args.filter((word) => !word.startsWith('--'));
  const all = rowNames();
  const unknown = asked.find((name) => !all.includes(name));
  if (unknown !== undefined) throw new Error(`There is no row “${unknown}”. The rows are: ${all.join(', ')}.`);
  const runs = Number.parseInt(args.find((word) => word.startsWith('--runs='))?.slice(7) ?? '5', 10);
  const bench = { runs, short: args.includes('--short') };
  const measured = new Map<string, readonly Line[]>();
  for (const name of asked.length > 0 ? asked : all) {
    const busy = await busyCores();
    process.stdout.write(`${name} (cores that others keep busy: ${busy.toFixed(1)})\n`);
    measured.set(name, measure(name, bench, busy));
    // Row by row, so that a bench that is broken off has not measured for nothing.
    if (!bench.short) keep(measured, all);
  }
  process.stdout.write(`\n${machineWords()}\n\n${tableText(measured)}\n`);
}

function keep(measured: ReadonlyMap<string, readonly Line[]>, order: readonly string[]): void {
  const page = readFileSync(PAGE, 'utf8');
  writeFileSync(PAGE, pageWith(page, measured, { order, machine: machineWords() }));
}

await main(process.argv.slice(2));

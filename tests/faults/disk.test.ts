import { spawnSync } from 'node:child_process';
import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { submitUntyped } from '#db/book/door.ts';
import { lineWithKey } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { probeDisk, troubleOfWriting } from '#db/book/trouble.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { actNo } from '#tests/faults/support/acts.ts';
import { bundle } from '#tests/faults/support/child.ts';
import { type TracedRun, traced } from '#tests/faults/support/traced.ts';
import { openHall } from '#tests/support/hall.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const ACTS = 6;
/** Every N with FAULT_ALL=1; in the check so many, spread over all. */
const USUAL = 4;

const script = await bundle('tests/faults/support/traced-clerk.ts');
const base = tempFile();
openHall({ file: base }).book.close();

function copied(): string {
  const file = tempFile();
  copyFileSync(base, file);
  return file;
}

const calm = traced({ script, file: copied(), from: 1, acts: ACTS });
const many = (call: string) => calm.calls.filter((one) => one === call).length;

function places(total: number): number[] {
  const step = process.env.FAULT_ALL === '1' ? 1 : Math.max(1, Math.floor(total / USUAL));
  return Array.from({ length: total }, (_, at) => at + 1).filter((n) => n % step === 0 || n === 1);
}

/** What was answered is there, once; what was not is taken when it comes again; and the book proves whole. */
function inspect(file: string, { lines }: TracedRun): void {
  const answered = lines.filter((line) => /^\d/.test(line)).map((line) => line.split(' '));
  const book = openBook(file);
  for (const [number, line] of answered) expect(String(lineWithKey(book, `act-${number}`)?.seq)).toBe(line);
  for (let number = 1; number <= ACTS; number += 1) {
    expect(submitUntyped(book, actNo(number))).toMatchObject({ ok: true });
  }
  const twice = "SELECT count(*) FROM log WHERE key LIKE 'act-%'";
  expect(book.sqlite.prepare(twice).pluck().get()).toBe(ACTS);
  book.close();
  expect(verifyBook(file)).toMatchObject({ ok: true, problems: [] });
}

describe('a clerk at a whole disk', () => {
  it('has each act answered, and the disk is waited for at least once an act', () => {
    expect(calm.lines.at(-1)).toBe('closed');
    expect(calm.lines).toHaveLength(ACTS + 1);
    expect(many('fdatasync') + many('fsync')).toBeGreaterThanOrEqual(ACTS);
    console.log(`${ACTS} acts: ${many('pwrite64')} writes, ${many('fdatasync') + many('fsync')} synchronisations`);
  });
});

describe.each([
  ['pwrite64', 'EIO', ''],
  ['pwrite64', 'ENOSPC', '+'],
  ['fsync', 'EIO', ''],
  ['ftruncate', 'EIO', ''],
] as const)('a disk whose %s gives %s%s from the N-th call', (call, error, on) => {
  it('leaves a whole book for every N, with a clear answer', () => {
    const told: Record<string, number> = {};
    for (const n of places(many(call))) {
      const file = copied();
      const run = traced({ script, file, from: 1, acts: ACTS, inject: `${call}:error=${error}:when=${n}${on}` });
      const last = run.lines.at(-1) ?? '';
      expect(last, `${call} ${n}`).toMatch(/^(closed|fault (disk|full|read_only|damaged) )/);
      const what = last.split(' ').slice(0, 2).join(' ');
      told[what] = (told[what] ?? 0) + 1;
      inspect(file, run);
    }
    console.log(
      `${call} ${error}${on}: ${many(call)} calls, tried ${places(many(call)).length}: ${JSON.stringify(told)}`,
    );
  });
});

describe('a disk without room', () => {
  it('is told as full, keeps what was answered, can be read, and takes the rest once there is room', () => {
    const folder = tempFolder('small');
    const isRoot = process.getuid?.() === 0;
    const mounted = isRoot && spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', folder]).status === 0;
    if (!mounted) console.log('No small disk could be mounted here: the calls above stand in for it (ENOSPC).');
    const file = join(folder, 'sale.book');
    copyFileSync(base, file);
    try {
      const book = openBook(file);
      const keys: string[] = [];
      const fault = fillUp(book, keys, mounted ? 100_000 : 50);
      if (mounted) {
        expect(troubleOfWriting(fault)).toMatchObject({ kind: 'full' });
        expect(() => probeDisk(file)).toThrow(/ENOSPC/);
        expect(spawnSync('mount', ['-o', 'remount,size=40m', folder]).status).toBe(0);
        probeDisk(file);
      }
      expect(keys.length).toBeGreaterThan(10);
      for (const key of keys) expect(lineWithKey(book, key)).toBeDefined();
      book.close();
      const again = openBook(file);
      for (let number = 1; number <= keys.length + 5; number += 1) {
        expect(submitUntyped(again, actNo(number))).toMatchObject({ ok: true, repeated: number <= keys.length });
      }
      again.close();
      expect(verifyBook(file)).toMatchObject({ ok: true, problems: [] });
    } finally {
      if (mounted) spawnSync('umount', [folder]);
    }
  });
});

function fillUp(book: ReturnType<typeof openBook>, keys: string[], most: number): unknown {
  try {
    for (let number = 1; number <= most; number += 1) {
      if (!submitUntyped(book, actNo(number)).ok) return undefined;
      keys.push(`act-${number}`);
    }
  } catch (fault) {
    return fault;
  }
  return undefined;
}

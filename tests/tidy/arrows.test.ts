import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { tempFolder } from '../support/temp.ts';
import { ROOT } from './tree.ts';

const CRUISE = join(ROOT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
const FOLDERS = ['app', 'lib', 'db', 'seed', 'tests'];

/** A project as small as can be, under the same configuration. Packages are empty shells that only need to be found. */
function smallProject(sources: Readonly<Record<string, string>>): string {
  const root = tempFolder('arrows');
  const write = (path: string, text: string) => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  };
  for (const name of ['.dependency-cruiser.cjs', 'tsconfig.json', 'package.json']) {
    copyFileSync(join(ROOT, name), join(root, name));
  }
  for (const name of ['zod', 'decimal.js', 'next', 'unheard-of']) {
    write(`node_modules/${name}/package.json`, JSON.stringify({ name, version: '1.0.0', main: 'index.js' }));
    write(`node_modules/${name}/index.js`, 'module.exports = {};\n');
  }
  for (const folder of FOLDERS) write(`${folder}/kept.ts`, 'export const kept = 1;\n');
  for (const [path, text] of Object.entries(sources)) write(path, text);
  return root;
}

interface Cruised {
  readonly summary: {
    readonly violations: readonly {
      readonly from: string;
      readonly to: string;
      readonly rule: { readonly name: string };
    }[];
  };
}

const use = (...targets: string[]) => targets.map((target) => `import '${target}';\n`).join('');

/** Each group of files lies in folders of its name, and is told apart by them. */
const SOURCES: Readonly<Record<string, string>> = {
  'lib/plan/a.ts': `import { z } from 'zod';\nimport D from 'decimal.js';\nexport const a = [z, D];\n`,
  'db/plan/a.ts': use('#lib/plan/a.ts', 'node:fs', 'unheard-of'),
  'app/plan/page.tsx': use('#db/plan/a.ts', '#lib/plan/a.ts', 'next'),
  'seed/plan/a.ts': use('#db/plan/a.ts', '#lib/plan/a.ts'),
  'tests/plan/a.test.ts': use('#app/plan/page.tsx', '#seed/plan/a.ts', '#db/plan/a.ts', '#lib/plan/a.ts'),

  'lib/back/a.ts': `import type { kept } from '#db/kept.ts';\nexport type A = typeof kept;\n`,
  'lib/back/b.ts': use('#app/kept.ts', '../../seed/kept.ts', '#tests/kept.ts'),
  'db/back/a.ts': use('#app/kept.ts', '#seed/kept.ts', '#tests/kept.ts'),
  'app/back/a.tsx': use('#seed/kept.ts', '#tests/kept.ts'),
  'seed/back/a.ts': use('#app/kept.ts', '#tests/kept.ts'),

  'lib/else/a.ts': use('unheard-of', 'node:fs', 'crypto'),
  'db/else/a.ts': `import { b } from '#db/else/b.ts';\nexport const a = () => b;\n`,
  'db/else/b.ts': `import { a } from '#db/else/a.ts';\nexport const b = () => a;\n`,
  'app/else/a.ts': use('#lib/nowhere.ts'),
  'lib/else/b.ts': `import type { C } from '#lib/else/c.ts';\nexport type B = C | 1;\n`,
  'lib/else/c.ts': `import type { B } from '#lib/else/b.ts';\nexport type C = B | 2;\n`,
};

/** Run once for all that is asked, as reading the packages takes most of the time. */
function cruise(): readonly string[] {
  const args = [CRUISE, '--config', '.dependency-cruiser.cjs', '--output-type', 'json', ...FOLDERS];
  const ran = spawnSync(process.execPath, args, { cwd: smallProject(SOURCES), encoding: 'utf8' });
  const { summary } = JSON.parse(ran.stdout) as Cruised;
  return summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`).sort();
}

describe('the direction of imports', () => {
  const all = cruise();
  const found = (group: string) => all.filter((one) => one.includes(`/${group}/`));

  it('lets every arrow of the plan through', () => {
    expect(found('plan')).toEqual([]);
  });

  it('catches every arrow that runs the other way, also one of types alone', () => {
    expect(found('back')).toEqual([
      'app-knows-no-demo: app/back/a.tsx → seed/kept.ts',
      'app-knows-no-demo: app/back/a.tsx → tests/kept.ts',
      'db-knows-no-screen: db/back/a.ts → app/kept.ts',
      'db-knows-no-screen: db/back/a.ts → seed/kept.ts',
      'db-knows-no-screen: db/back/a.ts → tests/kept.ts',
      'lib-stands-alone: lib/back/a.ts → db/kept.ts',
      'lib-stands-alone: lib/back/b.ts → app/kept.ts',
      'lib-stands-alone: lib/back/b.ts → seed/kept.ts',
      'lib-stands-alone: lib/back/b.ts → tests/kept.ts',
      'seed-uses-the-door: seed/back/a.ts → app/kept.ts',
      'seed-uses-the-door: seed/back/a.ts → tests/kept.ts',
    ]);
  });

  it('catches in lib/ any other package and anything of Node, and circles, also of types alone, and loose ends anywhere', () => {
    expect(found('else')).toEqual([
      'lib-no-node: lib/else/a.ts → crypto',
      'lib-no-node: lib/else/a.ts → fs',
      'lib-two-packages: lib/else/a.ts → node_modules/unheard-of/index.js',
      'no-circles: db/else/a.ts → db/else/b.ts',
      'no-circles: lib/else/b.ts → lib/else/c.ts',
      'no-loose-ends: app/else/a.ts → #lib/nowhere.ts',
    ]);
  });

  it('has nothing else to say', () => {
    expect(all).toEqual([...found('back'), ...found('else')].sort());
  });
});

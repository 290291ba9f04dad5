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

function violations(sources: Readonly<Record<string, string>>): readonly string[] {
  const args = [CRUISE, '--config', '.dependency-cruiser.cjs', '--output-type', 'json', ...FOLDERS];
  const ran = spawnSync(process.execPath, args, { cwd: smallProject(sources), encoding: 'utf8' });
  const { summary } = JSON.parse(ran.stdout) as Cruised;
  return summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`).sort();
}

const use = (...targets: string[]) => targets.map((target) => `import '${target}';\n`).join('');

describe('the direction of imports', () => {
  it('lets every arrow of the plan through', () => {
    const found = violations({
      'lib/a.ts': `import { z } from 'zod';\nimport D from 'decimal.js';\nexport const a = [z, D];\n`,
      'lib/b.ts': `import type { C } from '#lib/c.ts';\nexport type B = C | 1;\n`,
      'lib/c.ts': `import type { B } from '#lib/b.ts';\nexport type C = B | 2;\n`,
      'db/a.ts': use('#lib/a.ts', 'node:fs', 'unheard-of'),
      'app/page.tsx': use('#db/a.ts', '#lib/a.ts', 'next'),
      'seed/a.ts': use('#db/a.ts', '#lib/a.ts'),
      'tests/a.test.ts': use('#app/page.tsx', '#seed/a.ts', '#db/a.ts', '#lib/a.ts'),
    });
    expect(found).toEqual([]);
  });

  it('catches every arrow that runs the other way, also one of types alone', () => {
    const found = violations({
      'lib/a.ts': `import type { kept } from '#db/kept.ts';\nexport type A = typeof kept;\n`,
      'lib/b.ts': use('#app/kept.ts', '../seed/kept.ts', '#tests/kept.ts'),
      'db/a.ts': use('#app/kept.ts', '#seed/kept.ts', '#tests/kept.ts'),
      'app/a.tsx': use('#seed/kept.ts', '#tests/kept.ts'),
      'seed/a.ts': use('#app/kept.ts', '#tests/kept.ts'),
    });
    expect(found).toEqual([
      'app-knows-no-demo: app/a.tsx → seed/kept.ts',
      'app-knows-no-demo: app/a.tsx → tests/kept.ts',
      'db-knows-no-screen: db/a.ts → app/kept.ts',
      'db-knows-no-screen: db/a.ts → seed/kept.ts',
      'db-knows-no-screen: db/a.ts → tests/kept.ts',
      'lib-stands-alone: lib/a.ts → db/kept.ts',
      'lib-stands-alone: lib/b.ts → app/kept.ts',
      'lib-stands-alone: lib/b.ts → seed/kept.ts',
      'lib-stands-alone: lib/b.ts → tests/kept.ts',
      'seed-uses-the-door: seed/a.ts → app/kept.ts',
      'seed-uses-the-door: seed/a.ts → tests/kept.ts',
    ]);
  });

  it('catches in lib/ any other package and anything of Node, and circles and loose ends anywhere', () => {
    const found = violations({
      'lib/a.ts': use('unheard-of', 'node:fs', 'crypto'),
      'db/a.ts': `import { b } from '#db/b.ts';\nexport const a = () => b;\n`,
      'db/b.ts': `import { a } from '#db/a.ts';\nexport const b = () => a;\n`,
      'app/a.ts': use('#lib/nowhere.ts'),
    });
    expect(found).toEqual([
      'lib-no-node: lib/a.ts → crypto',
      'lib-no-node: lib/a.ts → fs',
      'lib-two-packages: lib/a.ts → node_modules/unheard-of/index.js',
      'no-circles: db/a.ts → db/b.ts',
      'no-loose-ends: app/a.ts → #lib/nowhere.ts',
    ]);
  });
});

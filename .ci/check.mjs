// `npm run check`: everything that must hold, in one go. Plain Node, because it starts before any package is here.
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from './build.mjs';
import { countReport } from './count.mjs';
import { ensurePrograms } from './needs.mjs';
import { ensureNative, fetchPackages } from './packages.mjs';
import { beside, bin, node, say } from './shell.mjs';

const MINUTE = 60_000;

// Limits end what hangs. They judge nothing: a machine four times slower than two cores of today comes nowhere near.
const WHOLE = { limitMs: 20 * MINUTE };
const TESTS = { limitMs: 45 * MINUTE, silentMs: 5 * MINUTE };

/** A step that says yes or no as a whole, by the exit code of one program of Node's after another. */
const yesNo =
  (...programs) =>
  async () => {
    for (const args of programs) {
      const code = await node(args, WHOLE);
      if (code !== 0) return { passed: 0, failed: 1, notes: [] };
    }
    return { passed: 1, failed: 0, notes: [] };
  };

const asCount = (work) => async () => ((await work()) ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 });

/** A step whose every test counts for itself. `reporter` is how Vitest says what it does meanwhile. */
const tests = (project, reporter) => async () => {
  const report = join(tmpdir(), `peltry-${project}-${process.pid}.json`);
  const said = [`--reporter=${reporter}`, '--reporter=json', `--outputFile.json=${report}`];
  const args = ['run', '--project', project, ...said];
  const code = await node([bin('vitest/vitest.mjs'), ...args], TESTS);
  return countReport(report, code);
};

const NEXT = bin('next/dist/bin/next');
const ARROWS = ['--config', '.dependency-cruiser.cjs', 'app', 'lib', 'db', 'seed', 'tests'];

// Biome takes a pipeline's log for a terminal unless told.
const COLOURS = process.stdout.isTTY ? [] : ['--colors=off'];

const FIRST = [
  ['Packages', asCount(fetchPackages)],
  ['Programs for the tests', asCount(ensurePrograms)],
];

/** Begun once; whatever opens a book waits for it. */
let native;
const nativePart = () => {
  native ??= ensureNative();
  return native;
};
const withNative = (work) => async () => ((await nativePart()) ? work() : { passed: 0, failed: 1 });

// Two rows side by side, because most steps keep one core busy. All leave the sources alone.
const ROWS = [
  [
    ['Native part of the packages', asCount(nativePart)],
    ['Rules, book and house', withNative(tests('rules', 'dot'))],
  ],
  [
    ['Lint and format', yesNo([bin('@biomejs/biome/bin/biome'), 'ci', '.', ...COLOURS])],
    ['Nothing is dead', yesNo([bin('knip/bin/knip.js'), '--no-progress'])],
    ['Types', yesNo([NEXT, 'typegen'], [bin('typescript/bin/tsc'), '--noEmit'])],
    ['Direction of imports', yesNo([bin('dependency-cruiser/bin/dependency-cruise.mjs'), ...ARROWS])],
    ['Build', withNative(asCount(() => build(WHOLE)))],
  ],
];

// What is built is tried by the browser, which keeps both cores busy; the faults wait for the disk more often.
const SCREENS = [['Screens in a real browser', tests('screens', 'verbose')]];
const FAULTS = [['Faults', tests('faults', 'verbose')]];

const seconds = (from) => `${((performance.now() - from) / 1000).toFixed(1)} s`;

async function take([title, work]) {
  say(`\n== ${title}`);
  const from = performance.now();
  const { passed, failed, notes = [] } = await work();
  for (const note of notes) say(note);
  say(`${failed === 0 ? 'yes' : 'NO'}: ${title}, ${passed} passed, ${failed} failed, ${seconds(from)}`);
  return { title, passed, failed };
}

async function takeInTurn(steps) {
  const results = [];
  for (const step of steps) results.push(await take(step));
  return results;
}

const from = performance.now();
const taken = await takeInTurn(FIRST);
// Without packages every later step would only say the same again.
if (taken[0].failed === 0) {
  const rows = await Promise.all(ROWS.map((steps) => beside(() => takeInTurn(steps))));
  const last = await Promise.all([takeInTurn(SCREENS), beside(() => takeInTurn(FAULTS))]);
  taken.push(...rows.flat(), ...last.flat());
}

const sum = (key) => taken.reduce((total, step) => total + step[key], 0);
console.log(`\nAll steps took ${seconds(from)}`);
for (const step of taken.filter((each) => each.failed > 0)) console.log(`NO: ${step.title}, ${step.failed} failed`);
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') === 0 ? 0 : 1;

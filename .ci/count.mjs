// Reads what Vitest found, out of its JSON report, and judges what Vitest itself lets pass.
import { readFileSync, rmSync } from 'node:fs';

const SKIPPED = new Set(['pending', 'skipped', 'todo', 'disabled']);

function read(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  } finally {
    rmSync(path, { force: true });
  }
}

/**
 * Counts one run of Vitest. A test that was skipped or left for later counts as failed, as does a file that could not
 * be loaded, a run without tests, and a run that ended badly though no test failed.
 */
export function countTests(report, exitCode) {
  if (report === null) return { passed: 0, failed: 1, notes: ['Vitest left no report: see above.'] };
  const tests = report.testResults.flatMap((file) => file.assertionResults);
  const skipped = tests.filter((test) => SKIPPED.has(test.status));
  const failed = tests.filter((test) => test.status === 'failed');
  const broken = report.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  );
  const notes = [
    ...skipped.map((test) => `Skipped, which counts as failed: ${test.fullName}`),
    ...broken.map((file) => `Could not be run: ${file.name}`),
  ];
  if (tests.length === 0) notes.push('There are no tests here.');
  const bad = skipped.length + failed.length + broken.length + (tests.length === 0 ? 1 : 0);
  if (bad === 0 && exitCode !== 0) {
    return {
      passed: tests.length,
      failed: 1,
      notes: [`Vitest ended with ${exitCode} though no test failed: see above.`],
    };
  }
  return { passed: tests.length - skipped.length - failed.length, failed: bad, notes };
}

/** Reads the report file, takes it away, and counts. */
export const countReport = (path, exitCode) => countTests(read(path), exitCode);

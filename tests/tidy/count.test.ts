import { describe, expect, it } from 'vitest';
import { countTests } from '../../.ci/count.mjs';

const file = (status: string, ...tests: string[]) => ({
  name: 'a.test.ts',
  status,
  assertionResults: tests.map((each, at) => ({ fullName: `test ${at}`, status: each })),
});
const count = (exitCode: number, ...testResults: ReturnType<typeof file>[]) => {
  const { passed, failed } = countTests({ testResults }, exitCode);
  return { passed, failed };
};

describe('the count of the check', () => {
  it('counts each test', () => {
    expect(count(0, file('passed', 'passed', 'passed'))).toEqual({ passed: 2, failed: 0 });
    expect(count(1, file('failed', 'passed', 'failed'))).toEqual({ passed: 1, failed: 1 });
  });

  it('takes a skipped test, and one left for later, as failed', () => {
    expect(count(0, file('passed', 'passed', 'skipped', 'pending', 'todo'))).toEqual({ passed: 1, failed: 3 });
  });

  it('takes a file that could not be loaded, no tests at all, and a bad end without a failed test as failed', () => {
    expect(count(1, file('passed', 'passed'), file('failed'))).toEqual({ passed: 1, failed: 1 });
    expect(count(0)).toEqual({ passed: 0, failed: 1 });
    expect(count(1, file('passed', 'passed'))).toEqual({ passed: 1, failed: 1 });
    expect(countTests(null, 1)).toMatchObject({ passed: 0, failed: 1 });
  });
});

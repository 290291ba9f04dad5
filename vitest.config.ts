import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/support/longest-first.ts';

const TESTS = ['tests/**/*.test.ts', 'tests/**/*.test.tsx'];

export default defineConfig({
  test: {
    // Limits end what hangs, a little before the check gives up on a silent run, so that the test is named. They are no
    // claim of speed: on a slow machine with much else to do nothing comes near them.
    testTimeout: 280_000,
    hookTimeout: 280_000,
    expect: { poll: { timeout: 120_000, interval: 20 } },
    allowOnly: false,
    retry: 0,
    setupFiles: ['tests/support/after-each-file.ts'],
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: {
          name: 'rules',
          include: TESTS,
          exclude: ['tests/screens/**', 'tests/faults/**'],
          globalSetup: 'tests/support/programs.ts',
          // Without the number, a machine of two cores is given one worker.
          maxWorkers: 2,
          // No file of tests changes what another would find, and reading all modules anew for each took half the time.
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          globalSetup: 'tests/support/programs.ts',
          fileParallelism: false,
        },
      },
      {
        // Each file has its own server and book, and waits for them about half the time: two run side by side.
        extends: true,
        test: {
          name: 'screens',
          include: ['tests/screens/**/*.test.ts'],
          globalSetup: 'tests/screens/support/built.ts',
          maxWorkers: 2,
          // The files of one worker share its browser, each test with a context of its own, and what they import.
          isolate: false,
          // After so many something common is broken, and the rest would wait out its limits one by one.
          bail: 8,
        },
      },
    ],
  },
});

import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/support/longest-first.ts';

const TESTS = ['tests/**/*.test.ts', 'tests/**/*.test.tsx'];

export default defineConfig({
  test: {
    // How long something may take at the most on a machine with much else to do; it is no claim of speed.
    testTimeout: 180_000,
    hookTimeout: 120_000,
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
          // Without the number, a machine of two cores is given one worker.
          maxWorkers: 2,
          // No file of tests changes what another would find, and reading all modules anew for each took half the time.
          isolate: false,
        },
      },
      {
        extends: true,
        test: { name: 'faults', include: ['tests/faults/**/*.test.ts'], fileParallelism: false, testTimeout: 300_000 },
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
          testTimeout: 120_000,
          hookTimeout: 240_000,
          // A wait says how long something may take at the most on a slow machine; it is no claim of speed.
          expect: { poll: { timeout: 20_000 } },
        },
      },
    ],
  },
});

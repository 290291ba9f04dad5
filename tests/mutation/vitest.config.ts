import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests that judge the rules of lib/ without a book: what `npm run mutate` runs against each change of a rule. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['tests/lib/**/*.test.ts', 'tests/outside/**/*.test.ts'],
    setupFiles: ['tests/support/after-each-file.ts'],
    testTimeout: 280_000,
  },
});

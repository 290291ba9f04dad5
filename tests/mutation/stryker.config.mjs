// Mutation testing of the rules of money, settlement and tags: `npm run mutate`, or for one file
// `npm run mutate -- --mutate lib/tag/number.ts`. Each operator and condition is changed in turn; a change that no test
// notices is a survivor. Over all rules it takes hours, so it is no part of the check.
const WORDS = ['money', 'settlement', 'seller', 'payment', 'invoice', 'buyer', 'drawer', 'tag', 'outcome'];

export default {
  mutate: [`lib/{${WORDS}}/**/*.ts`, 'lib/lot/amount.ts', 'lib/report/closing-*.ts'],
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutation/vitest.config.ts' },
  coverageAnalysis: 'perTest',
  concurrency: 2,
  // A sentence in other words is no other rule.
  mutator: { excludedMutations: ['StringLiteral'] },
  // What stands outside all functions, such as the patterns by which an amount is read, is run by every test: each change
  // of it takes as long as all tests of the file. PELTRY_PATTERNS=1 changes it too; for one file at a time.
  ignoreStatic: process.env.PELTRY_PATTERNS !== '1',
  ignorePatterns: ['/.next*', '/data', '/backups', '/out', '/docs/pictures'],
  tempDirName: 'out/mutation',
  reporters: ['clear-text', 'progress-append-only'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
};

// Mutation testing of the rules of money, settlement and tags: `npm run mutate`, or for one file
// `npm run mutate -- --mutate lib/tag/number.ts`. Each operator and condition is changed in turn; a change that no test
// notices is a survivor. Over all rules it takes hours, so it is no part of the check.
const RULES = [
  'money',
  'settlement',
  'sheet',
  'payout',
  'payment',
  'invoice',
  'buyer',
  'drawer',
  'closing',
  'tag',
  'outcome',
];
const FILES = [
  'money',
  'round',
  'rate',
  'decimal',
  'dues',
  'standing',
  'accounts',
  'buyer-account',
  'invoice',
  'settlement',
];

export default {
  mutate: [`lib/{${RULES}}/**/*.ts`, `lib/{${FILES},tag*,decide-*}.ts`],
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutation/vitest.config.ts' },
  coverageAnalysis: 'perTest',
  concurrency: 2,
  // A sentence in other words is no other rule.
  mutator: { excludedMutations: ['StringLiteral'] },
  ignoreStatic: true,
  ignorePatterns: ['/.next*', '/data', '/backups', '/out', '/docs/pictures'],
  tempDirName: 'out/mutation',
  reporters: ['clear-text', 'progress-append-only'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
};

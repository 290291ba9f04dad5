/**
 * The direction of imports: `lib` ← `db` ← `app`; `seed` uses `lib` and `db`; tests use anything; nothing uses tests or seed.
 * `npm run arrows` fails when an arrow runs the other way, and tests/tidy/arrows.test.ts shows that it would.
 */
const TOP = (...folders) => `^(${folders.join('|')})/`;
const NPM = ['npm', 'npm-dev', 'npm-optional', 'npm-peer', 'npm-bundled', 'npm-no-pkg', 'npm-unknown', 'undetermined'];

const forbid = (name, { because, from, to }) => ({
  name,
  comment: because,
  severity: 'error',
  from: { path: TOP(from) },
  to,
});

module.exports = {
  forbidden: [
    forbid('lib-stands-alone', {
      because: 'lib/ holds rules only: what it needs from elsewhere is handed to it as a value.',
      from: 'lib',
      to: { path: TOP('db', 'app', 'seed', 'tests') },
    }),
    forbid('db-knows-no-screen', {
      because: 'db/ may use lib/; a screen asks db/, never the other way.',
      from: 'db',
      to: { path: TOP('app', 'seed', 'tests') },
    }),
    forbid('app-knows-no-demo', {
      because: 'app/ must run without the demo and the tests.',
      from: 'app',
      to: { path: TOP('seed', 'tests') },
    }),
    forbid('seed-uses-the-door', {
      because: 'seed/ fills a book through db/, as a screen does, and needs no screen.',
      from: 'seed',
      to: { path: TOP('app', 'tests') },
    }),
    forbid('lib-two-packages', {
      because: 'lib/ may use decimal.js and zod; wrap anything else in db/ or app/.',
      from: 'lib',
      to: { dependencyTypes: NPM, pathNot: '(^|/)node_modules/(decimal\\.js|zod)/|^(lib|db|app|seed|tests)/' },
    }),
    forbid('lib-no-node', {
      because: 'lib/ has no clock, disk or crypto: hand it the time, the text or the digest as a value.',
      from: 'lib',
      to: { dependencyTypes: ['core'] },
    }),
    {
      name: 'no-circles',
      comment:
        'Two files that need each other, be it for types alone, are one file, or want a third that both may use.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-loose-ends',
      comment: 'An import that leads nowhere escapes every other rule: mend the path or add the package.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)\\.next|(^|/)next-env\\.d\\.ts$|^data/|^backups/' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mjs', '.cjs', '.js', '.json', '.css'],
    },
  },
};

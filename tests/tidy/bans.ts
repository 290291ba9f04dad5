/** One thing the house does without. Each names what to use instead, because a ban alone teaches nothing. */
export interface Ban {
  readonly what: string;
  readonly where: RegExp;
  readonly pattern: RegExp;
  readonly instead: string;
  /** A line the ban must catch: it shows that the pattern works. */
  readonly example: string;
  /** The files that may, each with its reason. An allowance that nothing needs any more fails the test. */
  readonly allowed?: Readonly<Record<string, string>>;
}

const CODE = /^(lib|db|app|seed)\/.*\.(tsx?|mjs)$/;
const PURE = /^(lib|db\/commands|db\/save)\/.*\.ts$/;

/** The words are put together here so that this table is not itself an offence. */
const later = ['skip', 'only', 'todo'].join('|');

export const BANS: readonly Ban[] = [
  {
    what: 'parseFloat',
    where: CODE,
    pattern: /\bparseFloat\s*\(/,
    instead:
      'parseCents for money, the parsers of lib/parse-quantity.ts for the rest: they refuse 12,5 and 1e3 and NaN',
    example: 'const price = Number.parseFloat(typed);',
  },
  {
    what: 'toFixed',
    where: CODE,
    pattern: /\.toFixed\s*\(/,
    instead: 'formatCents for money; roundHalfUp where a figure is to be rounded',
    example: 'const shown = (amount / 100).toFixed(2);',
  },
  {
    what: 'Number( )',
    where: CODE,
    pattern: /(?<![.\w])Number\s*\(/,
    instead: 'parseCents or the parsers of lib/parse-quantity.ts: Number makes 0 of nothing and 1000 of 1e3',
    example: 'const lots = Number(form.lots);',
    allowed: {
      'lib/money.ts': 'allocate shares whole cents out as BigInt, and each share is below what a Cents may be.',
    },
  },
  {
    what: 'the clock',
    where: PURE,
    pattern: /\bDate\.now\s*\(|\bnew Date\s*\(\s*\)|\bperformance\.now\s*\(/,
    instead: 'the time that the door hands to each command, so that a replay gives the same book',
    example: 'const at = new Date();',
  },
  {
    what: 'chance',
    where: PURE,
    pattern: /\bMath\.random\s*\(|\brandomUUID\s*\(|\bgetRandomValues\s*\(/,
    instead: 'a key in the input, drawn by whoever gives the command, so that a replay gives the same book',
    example: 'const key = Math.random();',
  },
  {
    what: 'a transaction of its own',
    where: CODE,
    pattern: /\.transaction\s*\(|\bBEGIN (IMMEDIATE|DEFERRED|EXCLUSIVE|TRANSACTION)\b/i,
    instead: 'a command through the door in db/door.ts: it writes the log line in the same transaction',
    example: 'db.transaction(() => insert.run(row));',
    allowed: {
      'db/door.ts': 'The door: the one place where the book is written.',
      'db/serving.ts': 'An exclusive lock on an empty file of its own: it writes nothing, and not the book.',
      'db/open.ts': 'An empty transaction, after which the safety settings are read back. It writes nothing.',
      'app/ui/outbox-store.ts': "The browser's own store of what waits to be sent: IndexedDB, not the book.",
    },
  },
  {
    what: 'a Server Action',
    where: CODE,
    pattern: /^\s*['"]use server['"]/,
    instead: 'POST /api/commands/<name>: one door, with its key, its station and its log line',
    example: "'use server';",
  },
  {
    what: 'a list of the fields that a form draws',
    where: /^app\/.*\.tsx$/,
    pattern: /\.(some|every)\(\(.*\) => errorOf\(/,
    instead: 'elsewhere of useGive: such a list goes on naming fields that are not drawn just now',
    example: "const elsewhere = refusal && !['amount'].some((field) => errorOf(field) !== undefined);",
  },
  {
    what: 'a font from the internet',
    where: CODE,
    pattern: /next\/font\/google/,
    instead: 'next/font/local, or the fonts of the system: the hall has no internet',
    example: "import { Inter } from 'next/font/google';",
  },
  {
    what: 'a silenced type error',
    where: /^(lib|db|app|seed|tests)\/.*\.tsx?$/,
    pattern: /@ts-(ignore|nocheck)\b/,
    instead: 'the right type; in a test of types, ts-expect-error, which fails when it is no longer needed',
    example: ['// @ts', 'ignore'].join('-'),
  },
  {
    what: 'a test put off',
    where: /^tests\/.*\.tsx?$/,
    pattern: new RegExp(`\\b(it|test|describe)(\\.\\w+)*\\.(${later})(If)?\\s*\\(|^\\s*x(it|describe|test)\\s*\\(`),
    instead: 'a test that runs, or none',
    example: ['describe', "skip('later', () => {});"].join('.'),
  },
];

/** The numbers of the lines the ban catches. Whole-line comments may speak of what is banned, save to silence types. */
export function caught(ban: Ban, text: string): readonly number[] {
  const silencing = ban.pattern.source.startsWith('@ts');
  return text.split('\n').flatMap((line, at) => {
    const comment = /^\s*(\/\/|\/?\*)/.test(line);
    return ban.pattern.test(line) && (silencing || !comment) ? [at + 1] : [];
  });
}

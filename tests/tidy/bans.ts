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
const TESTS = /^tests\/(?!bench\/|tidy\/).*\.tsx?$/;
/** The rules, and the folders of the book in which commands stand. */
const PURE = /^(lib|db\/(?!cli\/|certificate\/)[\w-]+)\/.*\.ts$/;

/** The words are put together here so that this table is not itself an offence. */
const later = ['skip', 'only', 'todo'].join('|');

export const BANS: readonly Ban[] = [
  {
    what: 'parseFloat',
    where: CODE,
    pattern: /\bparseFloat\s*\(/,
    instead:
      'parseMoney for money, the parsers of lib/quantity/quantity.ts for the rest: they refuse 12,5 and 1e3 and NaN',
    example: 'const price = Number.parseFloat(typed);',
  },
  {
    what: 'toFixed',
    where: CODE,
    pattern: /\.toFixed\s*\(/,
    instead: 'formatMoney for money; roundHalfUp where a figure is to be rounded',
    example: 'const shown = (amount / 100).toFixed(2);',
  },
  {
    what: 'Number( )',
    where: CODE,
    pattern: /(?<![.\w])Number\s*\(/,
    instead: 'parseMoney or the parsers of lib/quantity/quantity.ts: Number makes 0 of nothing and 1000 of 1e3',
    example: 'const lots = Number(form.lots);',
  },
  {
    what: 'the clock',
    where: PURE,
    pattern: /\bDate\.now\s*\(|\bnew Date\s*\(\s*\)|\bperformance\.now\s*\(/,
    instead: 'the time that the door hands to each command, so that a replay gives the same book',
    example: 'const at = new Date();',
  },
  {
    what: 'a day cut out of an instant',
    where: CODE,
    pattern: new RegExp(
      [
        String.raw`\.(slice|substring|substr)\(\s*0\s*,\s*(10|13|16|19)\s*\)`,
        String.raw`\.(slice|substring|substr)\(\s*11\b`,
        String.raw`\.split\(\s*['"\x60/]T['"\x60/]`,
        String.raw`\bsubstr\(\s*\w*at\s*,\s*1\s*,\s*(4|7|10)\b`,
        String.raw`\b(toISOString|toJSON)\(\)\.(slice|substr|split|replace\(['"\x60/]T)`,
      ].join('|'),
      'i',
    ),
    instead: 'dayIn of db/sale/queries.ts, or localDay of lib/date/date.ts: in UTC an evening is the next day',
    example: 'const day = paidAt.slice(0, 10);',
    allowed: {
      'lib/date/date.ts': 'Dates are counted as if each began in UTC: there the instant was made out of the day.',
      'app/(stations)/block/written/closing-time.tsx': 'What a field holds: a day and a time without a zone.',
      'app/(stations)/block/draft.ts': 'The instant is moved by how far the zone is ahead of UTC before it is cut.',
      'app/api/office/verify/route.ts': 'The first letters of a SHA-256, which is no instant.',
      'app/(stations)/office/backups/page.tsx': 'The same.',
    },
  },
  {
    what: "the machine's own day",
    where: CODE,
    pattern:
      /\.get(UTC)?(FullYear|Month|Date|Day|Hours|Minutes)\s*\(|\.to(Locale)?(Date|Time)String\s*\(|\bDateTimeFormat\b/,
    instead: 'localDay and localTime of lib/date/date.ts with the time zone of the book: a server may stand anywhere',
    example: 'const year = new Date().getFullYear();',
    allowed: {
      'lib/date/date.ts': 'The one place that asks Intl what day it is in a time zone.',
      'app/(hall)/board/board.tsx':
        "In the association's zone, by what the browser has: the Board's code is kept small.",
      'app/(stations)/sale/association-form.tsx': 'The time zone of the machine, offered while nobody has said one.',
    },
  },
  {
    what: 'chance',
    where: PURE,
    pattern: /\bMath\.random\s*\(|\brandomUUID\s*\(|\bgetRandomValues\s*\(/,
    instead: 'a key in the input, drawn by whoever gives the command, so that a replay gives the same book',
    example: 'const key = Math.random();',
    allowed: {
      'db/exchange/import-folder.ts': 'It gives the command that takes a folder in, and draws its key.',
    },
  },
  {
    what: 'a limit on a test that a slow machine would reach',
    where: TESTS,
    pattern: /\btimeout: ?(?!0\b)(\d{1,5}|\d{1,2}_\d{3}|1\d\d_\d{3}|2[0-7]\d_\d{3})\b/,
    instead: 'no limit: the ones of vitest.config.ts end what hangs, and decide nothing',
    example: 'await row.waitFor({ timeout: 8000 });',
  },
  {
    what: 'a test that the clock decides',
    where: TESTS,
    pattern: /^(?!.*PELTRY_TIMED).*expect\(.*(performance|Date)\.now\(\) - .*toBeLess/,
    instead: 'PELTRY_TIMED, by which a person asks for it on an idle machine, or a row of the bench',
    example: 'expect(performance.now() - from).toBeLessThan(1000);',
  },
  {
    what: 'a transaction of its own',
    where: CODE,
    pattern: /\.transaction\s*\(|\bBEGIN (IMMEDIATE|DEFERRED|EXCLUSIVE|TRANSACTION)\b/i,
    instead: 'a command through the door in db/book/door.ts: it writes the log line in the same transaction',
    example: 'db.transaction(() => insert.run(row));',
    allowed: {
      'db/book/door.ts': 'The door: the one place where the book is written.',
      'db/book/check-file.ts': 'An exclusive lock on an empty file of its own: it writes nothing, and not the book.',
      'db/book/open.ts': 'An empty transaction, after which the safety settings are read back. It writes nothing.',
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

import { files, read } from '#tests/tidy/tree.ts';

/** Every address of the application and the methods it takes, read from its files. */

export interface Address {
  readonly path: string;
  readonly method: 'GET' | 'POST';
}

/** A part in brackets is filled with x, a group in parentheses has no part in an address. */
function addressOf(file: string): string {
  const folder = file.replace(/^app\/?/, '').replace(/\/?[^/]+$/, '');
  return `/${folder.replace(/\(\w+\)\/?/g, '').replace(/\[(?:\.{3})?\w+\]/g, 'x')}`;
}

interface Table {
  readonly file: string;
  readonly table: string;
  /** What stands beside the table. */
  readonly also: readonly string[];
}

/** Routes that answer by a table of names: each name is an address of its own. */
const TABLES: Readonly<Record<string, Table>> = {
  'GET app/api/papers/[...paper]/route.ts': {
    file: 'app/api/papers/[...paper]/route.ts',
    table: 'PAPERS',
    also: ['payout/x'],
  },
  'GET app/api/views/[view]/route.ts': { file: 'app/api/views/[view]/route.ts', table: 'VIEWS', also: [] },
  'POST app/api/views/[view]/route.ts': { file: 'app/api/views/[view]/route.ts', table: 'POSTED', also: [] },
};

export const PAGES: readonly string[] = files(/^app\/(.*\/)?page\.tsx$/).map(addressOf);

/** The route handlers, each method by itself. A method of which this list knows nothing fails the reading. */
export const ROUTES: readonly Address[] = files(/^app\/.*\/route\.ts$/).flatMap((file) => {
  const methods = [...read(file).matchAll(/^export (?:async )?(?:function|const) ([A-Z]+)\b/gm)].map(
    ([, name]) => name,
  );
  if (methods.length === 0) throw new Error(`${file} exports no method that could be read.`);
  return methods.flatMap((method) => {
    if (method !== 'GET' && method !== 'POST') throw new Error(`${file} takes ${method}: say who may.`);
    const table = TABLES[`${method} ${file}`];
    const paths = table ? namesIn(table).map((name) => addressOf(file).replace(/x$/, name)) : [addressOf(file)];
    return paths.map((path) => ({ path, method }) as const);
  });
});

/** The names of a table in a file, as in `const PAPERS … = { 'bid-sheets': …, receipt: … };`. */
function namesIn({ file, table, also }: Table): string[] {
  const text = new RegExp(`const ${table}\\b[^=]*= \\{(.*?)^\\};`, 'ms').exec(read(file))?.[1] ?? '';
  const names = [...text.matchAll(/^ {2}'?([\w/-]+)'?(?::|,$)/gm)].map(([, name]) => name ?? '');
  if (names.length === 0) throw new Error(`${file} has no table ${table} that could be read.`);
  return [...names, ...also];
}

/** Every screen of the application, as the demo shows it: for looking at, by programs and by people. */

/** What stands for the parts of an address in brackets; the fourth sale of the demo is half sold, the third is closed. */
const SAMPLES: Readonly<Record<string, string>> = {
  '/intake/lot/[no]': '/intake/lot/120',
  '/intake/seller/[no]': '/intake/seller/2',
  '/till/[buyerNo]': '/till/2',
  '/payout/[sellerNo]': '/payout/2?sale=3',
  '/prices/[goods]': '/prices/raccoon',
  '/help/[page]': '/help/block',
};

/** What a screen shows only when it is asked. */
const ASKED: readonly string[] = [
  '/board/seller?no=2',
  '/prices?find=unicorn',
  '/prices/raccoon?size=L',
  '/prices/mine?my+raccoon+piece=40&my+bobcat+piece=1&as=member',
  '/office/people?find=wren',
];

/** The address of each page file, with samples where it asks for something, and then what is shown when asked. */
export const SCREENS: readonly string[] = [...files(/^app\/(.*\/)?page\.tsx$/).map(shownAt), ...ASKED];

/** The same screens of a sale that is over: the same parts, full of figures. */
export const AFTERWARDS: readonly string[] = ['', '/balance', '/checks', '/kept', '/after'].map(
  (page) => `/payout${page}?sale=3`,
);

function shownAt(file: string): string {
  const address = `/${file.replace(/^app\/?/, '').replace(/\/?page\.tsx$/, '')}`.replace(/\/\(\w+\)/g, '') || '/';
  const sample = Object.keys(SAMPLES).find((one) => address === one || address.startsWith(`${one}/`));
  if (sample === undefined) {
    if (address.includes('[')) throw new Error(`Say in SAMPLES what ${address} is to show.`);
    return address;
  }
  const [path = '', query] = (SAMPLES[sample] ?? '').split('?');
  return path + address.slice(sample.length) + (query === undefined ? '' : `?${query}`);
}

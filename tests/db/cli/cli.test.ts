import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { programFile } from '#app/server/programs.mjs';
import { NotUnderstood, readArguments } from '#db/cli/main.ts';
import { rowsOfFile, rowsRestored } from '#tests/support/book-file.ts';
import { CSV_FILES, caseFolder, cellsIn, changed, filesIn, folderOf, rowsIn } from '#tests/support/exchange.ts';
import { cli, cliProcess, onDisk } from '#tests/support/process.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';
import { ROOT, read } from '#tests/tidy/tree.ts';

const CASES = ['by-hand', 'sixty-lots'] as const;
const NAMES = { 'by-hand': 'Worked by hand', 'sixty-lots': 'Sixty lots' } as const;

/** A book with both worked sales in it. */
async function bookOfBoth(): Promise<string> {
  const book = tempFile();
  for (const name of CASES) expect(await cli('import', caseFolder(name), '--book', book)).toMatchObject({ code: 0 });
  return book;
}

/** A folder in which twelve different things are wrong, and where each is. */
function twelveFaults(): { folder: string; places: string[] } {
  const folder = folderOf(
    changed('by-hand', [
      ['sale.json', '"premium_pct": "2.5"', '"premium_pct": "2,5"'],
      ['goods.csv', 'Raccoon,Procyon lotor,piece,no', 'Raccoon,Procyon lotor,piece,never'],
      ['people.csv', 'M2,2026-12-31', 'M2,2026-13-31'],
      ['sellers.csv', '1,P2,1', '1,P1,1'],
      ['buyers.csv', '11,P5', '11,P55'],
      ['lots.csv', '3,1,opossum,piece,1', '3,1,opossum,piece,one'],
      ['lots.csv', '5,2,muskrat,lot,40', '5,4,muskrat,lot,40'],
      ['tags.csv', 'WY BOB 2025 000103', 'WY BOB 2025 000102'],
      ['results.csv', '2,sold,7.75', '2,sold,7.755'],
      ['results.csv', '7,sold,10.00,11', '70,sold,10.00,11'],
      ['charges.csv', '1,dues,25.00', '1,dues,1e3'],
      ['charges.csv', '2,dues,25.00,cash', '2,dues,25.00,barter'],
    ]),
  );
  const places = [
    ...[
      'sale.json:17 terms.premium_pct',
      'goods.csv:3 export_tag',
      'people.csv:3 member_until',
      'sellers.csv:3 person_id',
    ],
    ...['buyers.csv:3 person_id', 'lots.csv:4 count', 'lots.csv:6 seller_no', 'tags.csv:4 tag'],
    ...['results.csv:3 price', 'results.csv:8 lot_no', 'charges.csv:2 amount', 'charges.csv:3 how'],
  ];
  return { folder, places };
}

describe('both worked sales through the command line', () => {
  it('give the tables that were worked apart, and come out and in again as the same files', async () => {
    const book = await bookOfBoth();
    const again = tempFile();
    for (const name of CASES) {
      const first = tempFolder('out');
      expect(await cli('export', first, '--sale', NAMES[name], '--book', book)).toMatchObject({ code: 0, err: '' });
      const out = filesIn(first);
      for (const [file, text] of Object.entries(filesIn(join(caseFolder(name), 'expected')))) {
        expect(cellsIn(out[file] ?? ''), `${name}/${file}`).toEqual(cellsIn(text));
      }
      const given = filesIn(caseFolder(name));
      for (const file of CSV_FILES) expect(rowsIn(out[file] ?? ''), file).toEqual(rowsIn(given[file] ?? ''));
      expect(await cli('import', first, '--book', again)).toMatchObject({ code: 0 });
      const second = join(tempFolder('out'), 'made', 'as needed');
      expect(await cli('export', second, '--sale', NAMES[name], '--book', again)).toMatchObject({ code: 0 });
      expect(filesIn(second)).toEqual(out);
    }
    const verified = await cli('verify', '--book', again);
    expect(JSON.parse(verified.out)).toMatchObject({ ok: true, money: { sales: 2 } });
    expect(verified).toMatchObject({ code: 0, err: '' });
  });
});

describe('an import', () => {
  it('that has twelve faults tells all twelve, and the file of the book is as it was', async () => {
    const book = tempFile();
    await cli('import', caseFolder('sixty-lots'), '--book', book);
    const before = onDisk(book);
    const { folder, places } = twelveFaults();
    const ran = await cli('import', folder, '--book', book);
    expect(ran.code).toBe(1);
    const lines = ran.err.trimEnd().split('\n');
    expect(lines.map((line) => line.slice(0, line.indexOf(': ')))).toEqual(places);
    expect(onDisk(book)).toEqual(before);
    expect(before.beside).toEqual([]);
  });

  it('of a sale that is there already is refused, and the file of the book is as it was', async () => {
    const book = await bookOfBoth();
    const before = onDisk(book);
    const ran = await cli('import', caseFolder('by-hand'), '--book', book);
    expect(ran).toMatchObject({ code: 1, err: expect.stringMatching(/^sale\.json:2 name: .*already in the book/) });
    expect(onDisk(book)).toEqual(before);
  });

  it('makes the book where there is none, and says so; but not for a folder that is wrong', async () => {
    const book = tempFile();
    expect(await cli('import', twelveFaults().folder, '--book', book)).toMatchObject({ code: 1 });
    expect(existsSync(book)).toBe(false);
    expect(await cli('import', caseFolder('by-hand'), '--book', book)).toEqual({
      code: 0,
      out: 'Imported Worked by hand: 7 lots, 5 people, log line 1.\n',
      err: expect.stringContaining('an empty one was made'),
    });
  });

  it('says which file of the folder it passed over', async () => {
    const folder = folderOf({ ...filesIn(caseFolder('by-hand')), 'payment.csv': 'x\n', 'settlements.csv': 'x\n' });
    const ran = await cli('import', folder, '--book', tempFile());
    expect(ran.code).toBe(0);
    expect(ran.err).toContain('payment.csv is not a file of an exchange folder');
    expect(ran.err).not.toContain('settlements.csv');
  });

  it('into what is no book leaves it alone', async () => {
    const file = tempFile();
    writeFileSync(file, 'a letter to the members');
    expect(await cli('import', caseFolder('by-hand'), '--book', file)).toMatchObject({ code: 1, out: '' });
    expect(readFileSync(file, 'utf8')).toBe('a letter to the members');
  });

  it('of a folder that is not there says so', async () => {
    const ran = await cli('import', join(tempFolder(), 'none'), '--book', tempFile());
    expect(ran).toMatchObject({ code: 1, err: expect.stringContaining('There is no folder') });
  });
});

describe('the other commands', () => {
  it('init makes an empty book once, and never over another file', async () => {
    const book = tempFile();
    expect(await cli('init', '--book', book)).toMatchObject({ code: 0, err: '' });
    const before = onDisk(book);
    expect(await cli('init', '--book', book)).toMatchObject({ code: 1, err: expect.stringContaining('already') });
    expect(onDisk(book)).toEqual(before);
    expect(await cli('export', tempFolder(), '--book', book)).toMatchObject({
      code: 1,
      err: expect.stringContaining('no sale'),
    });
  });

  it('export asks which sale where there are several, and takes its id', async () => {
    const book = await bookOfBoth();
    const folder = tempFolder('out');
    expect(await cli('export', folder, '--book', book)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--sale[\s\S]*Sixty lots/),
    });
    expect(await cli('export', folder, '--book', book, '--sale', 'None')).toMatchObject({ code: 1, out: '' });
    expect(Object.keys(filesIn(folder))).toEqual([]);
    expect(await cli('export', folder, '--book', book, '--sale', '2')).toMatchObject({ code: 0 });
    expect(JSON.parse(filesIn(folder)['sale.json'] ?? '')).toMatchObject({ name: 'Sixty lots' });
  });

  it('backup and restore bring back the same book, and verify says when there is none', async () => {
    const book = await bookOfBoth();
    const copy = tempFile('copy.book');
    const restored = tempFile('restored.book');
    expect(await cli('backup', copy, '--book', book)).toMatchObject({ code: 0 });
    expect(await cli('restore', copy, '--book', restored)).toMatchObject({ code: 0 });
    expect(await cli('restore', copy, '--book', restored)).toMatchObject({ code: 1 });
    const one = JSON.parse((await cli('verify', '--book', book)).out);
    const two = JSON.parse((await cli('verify', '--book', restored)).out);
    expect(rowsRestored(restored)).toEqual(rowsOfFile(book));
    expect(two).toMatchObject({ ok: true, problems: [], chain: { lines: one.chain.lines + 1 } });
    const none = await cli('verify', '--book', tempFile('none.book'));
    expect(none.code).toBe(1);
    expect(JSON.parse(none.out)).toMatchObject({ ok: false });
  });

  it('holds a book against the head that a paper gives, and against those beside it', async () => {
    const book = await bookOfBoth();
    const { head } = JSON.parse((await cli('verify', '--book', book)).out).chain;
    const against = async (...heads: string[]) => {
      const done = await cli('verify', '--book', book, ...heads.flatMap((one) => ['--head', one]));
      return { code: done.code, err: done.err, ...JSON.parse(done.out) };
    };
    const paper = `${head.seq}:${head.hash.slice(0, 20)}`;
    expect(await against(paper)).toMatchObject({ code: 0, ok: true, heads: [{ ok: true, line: head.seq }] });
    expect((await against(`${head.seq}: ${head.hash.slice(0, 8).toUpperCase()}`)).heads[0].message).toBe(
      `--head: this book agrees. Nothing up to line ${head.seq} was changed or lost.`,
    );
    const short = await against(`${head.seq + 3}:${head.hash}`);
    expect(short).toMatchObject({ code: 1, ok: false, chain: { ok: true } });
    expect(short.err).toContain(`this book ends at line ${head.seq}. It lacks 3 or more entries that were saved.`);
    const other = await against(paper, `1:${'0'.repeat(20)}`);
    expect(other).toMatchObject({ code: 1, heads: [{ ok: true }, { ok: false, line: 1 }] });
    expect(other.err).toContain('line 1 of this book is another one.');

    const folder = join(dirname(book), 'backups');
    mkdirSync(folder);
    expect(await cli('keep', folder, '--book', book)).toMatchObject({ code: 0 });
    expect((await against()).heads).toMatchObject([{ ok: true, line: head.seq, hash: head.hash }]);
    const [about = ''] = readdirSync(folder).filter((name) => name.endsWith('.json'));
    const words = JSON.parse(readFileSync(join(folder, about), 'utf8'));
    writeFileSync(
      join(folder, about),
      JSON.stringify({ ...words, logHead: { seq: head.seq + 1, hash: 'f'.repeat(64) } }),
    );
    expect(await against()).toMatchObject({ code: 1, heads: [{ ok: false, from: about }] });
  });

  it('reads paths from where the person stands, though npm starts elsewhere', () => {
    const book = tempFile();
    // What npm does with the script of this name, whose program a build bundles beside the pages.
    const { book: script } = JSON.parse(read('package.json')).scripts;
    expect(script).toBe('node .next/programs/cli.mjs');
    const env = { ...process.env, npm_lifecycle_event: 'book', INIT_CWD: join(caseFolder('by-hand'), '..') };
    const words = [programFile('cli'), 'import', 'by-hand', '--book', book];
    const ran = spawnSync(process.execPath, words, { cwd: ROOT, env, encoding: 'utf8' });
    expect(ran.stdout).toBe('Imported Worked by hand: 7 lots, 5 people, log line 1.\n');
    expect(ran.status).toBe(0);
  });
});

describe('a command that is not understood', () => {
  it.each([
    [[]],
    [['frob', '--book', 'x.book']],
    [['verify']],
    [['verify', '--book', '']],
    [['import', '--book', 'x.book']],
    [['import', 'one', 'two', '--book', 'x.book']],
    [['verify', 'x.book', '--book', 'x.book']],
    [['verify', '--sale', '1', '--book', 'x.book']],
    [['verify', '--fast', '--book', 'x.book']],
    [['verify', '--book']],
    [['verify', '--book', 'x.book', '--head', '12']],
    [['verify', '--book', 'x.book', '--head', '12:89abcde']],
    [['backup', 'y.book', '--book', 'x.book', '--head', '12:89abcdef']],
  ])('%j', (words) => {
    expect(() => readArguments(words, tempFolder())).toThrow(NotUnderstood);
  });

  it.each([[['frob', '--book', 'x.book']], [['verify']]])(
    '%j ends with 2 and the usage on the error stream',
    (words) => {
      expect(cliProcess(...words)).toEqual({
        code: 2,
        out: '',
        err: expect.stringContaining('Usage: npm run --silent book'),
      });
    },
  );

  it('is helped with --help', () => {
    expect(cliProcess('--help')).toEqual({ code: 0, out: expect.stringContaining('export <folder> [--sale'), err: '' });
  });
});

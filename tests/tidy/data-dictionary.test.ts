/**
 * The data dictionary beside a real book: it names each table and column, and none that is not there. Its list of
 * commands is written by this test, from what each command says of itself: `vitest run tests/tidy/data-dictionary -u`.
 */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { allCommands } from '#db/commands.ts';
import { tempFile } from '#tests/support/temp.ts';
import { read } from './tree.ts';

const APPEND_ONLY = `SELECT tbl_name FROM sqlite_master WHERE type = 'trigger' AND name LIKE '%\\_no\\_delete' ESCAPE '\\'`;

/** `line` is explained once for all tables. */
const ONCE_FOR_ALL = 'line';

const PAGE = 'docs/data-dictionary.md';
const COMMANDS = '\n## Commands\n';

/** What the page says of the commands. */
function listOfCommands(): string {
  const rows = allCommands().map(
    ({ name, logLabel, summary, stations }) => `| \`${name}\` | ${logLabel} | ${summary} | ${stations.join(', ')} |`,
  );
  const head = ['| `command` | in words | does | at |', '| --- | --- | --- | --- |'];
  const about = 'What may stand in the column `command` of the log, and at which stations it is given.';
  return `${COMMANDS}\n${about}\n\n${[...head, ...rows].join('\n')}\n`;
}

interface Described {
  readonly columns: readonly string[];
  readonly appendOnly: boolean;
}

function inTheBook(): Map<string, Described> {
  const book = openBook(tempFile(), { create: true });
  const tables = book.sqlite
    .prepare(
      `SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\'`,
    )
    .pluck()
    .all() as string[];
  const sealed = new Set(book.sqlite.prepare(APPEND_ONLY).pluck().all());
  const columnsOf = (table: string) =>
    book.sqlite.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
  const found = tables.map((table): [string, Described] => [
    table,
    {
      columns: columnsOf(table)
        .filter((name) => name !== ONCE_FOR_ALL)
        .sort(),
      appendOnly: sealed.has(table),
    },
  ]);
  book.close();
  return new Map(found);
}

function inThePage(page: string): Map<string, Described> {
  const [tables = ''] = page.split(COMMANDS);
  const sections = tables.split(/^## /m).slice(1);
  return new Map(
    sections.map((section): [string, Described] => {
      const cells = [...section.matchAll(/^\| (`[^|]*?) \|/gm)].map((match) => match[1] ?? '');
      const columns = cells.flatMap((cell) => [...cell.matchAll(/`(\w+)`/g)].map((match) => match[1] ?? ''));
      return [
        section.slice(0, section.indexOf('\n')),
        { columns: columns.sort(), appendOnly: /Append-only/.test(section) },
      ];
    }),
  );
}

describe('the data dictionary', () => {
  it('is read by tables and columns', () => {
    const page = '# A\n\n## lot\n\nGoods. Append-only.\n\n| column | holds |\n| --- | --- |\n| `id`, `by` | `lb` |\n';
    expect([...inThePage(page)]).toEqual([['lot', { columns: ['by', 'id'], appendOnly: true }]]);
  });

  it('names every table of a new book with its columns, and says which are append-only', () => {
    const byName = (tables: Map<string, Described>) => Object.fromEntries([...tables].sort());
    expect(byName(inThePage(read(PAGE)))).toEqual(byName(inTheBook()));
  });

  it('lists every command as it describes itself', async () => {
    const [tables = ''] = read(PAGE).split(COMMANDS);
    await expect(`${tables}${listOfCommands()}`).toMatchFileSnapshot(join(import.meta.dirname, '../..', PAGE));
  });

  it('hears from each command a label of its own and one sentence', () => {
    const labels = allCommands().map(({ logLabel }) => logLabel);
    expect(new Set(labels).size).toBe(labels.length);
    for (const { summary } of allCommands()) expect(summary).toMatch(/^\p{Lu}[^|]*\.$/u);
  });
});

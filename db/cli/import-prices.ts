import { randomUUID } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { Refusal } from '#lib/result.ts';
import { submit } from '../door.ts';
import { checkPriceList, readPriceList, rowsToGive } from '../exchange/price-list.ts';
import { type Problem, problemLine, problemList, sortProblems } from '../exchange/problem.ts';
import type { RawTable } from '../exchange/raw.ts';
import { openBook } from '../open.ts';
import { WORKER } from './import.ts';
import type { ExitCode, Subcommand, Voice } from './io.ts';

export const importPrices: Subcommand = {
  name: 'import-prices',
  takes: '<file>',
  takesSale: false,
  says: 'takes in a plain price list of seasons whose sale is not in the book, all or nothing',
  run: ({ book, path }, voice) => takeIn({ book, path, replaces: false }, voice),
};

export const replacePrices: Subcommand = {
  name: 'replace-prices',
  takes: '<file>',
  takesSale: false,
  says: 'the same, in place of what stood for its seasons before',
  run: ({ book, path }, voice) => takeIn({ book, path, replaces: true }, voice),
};

interface Asked {
  readonly book: string;
  readonly path: string;
  readonly replaces: boolean;
}

function takeIn({ book: bookFile, path, replaces }: Asked, voice: Voice): ExitCode {
  if (!existsSync(path) || !statSync(path).isFile())
    return refuseAll([`There is no file ${path}: check the path.`], voice);
  const book = openBook(bookFile);
  try {
    const file = basename(path);
    const { raw, problems } = readPriceList(file, readFileSync(path));
    if (problems.length > 0) return refuseAll(allProblems(file, raw, problems), voice);
    const envelope = { command: 'prices.import', station: 'office', worker: WORKER, key: randomUUID() } as const;
    const input = { file, rows: rowsToGive(raw), replaces };
    const answer = submit(book, { ...envelope, at: new Date().toISOString(), input });
    if (!answer.ok) return refuseAll([answer, ...(answer.also ?? [])].map(refusedLine), voice);
    const { rows, seasons } = answer.value;
    voice.say(`Took in ${rows} ${rows === 1 ? 'row' : 'rows'} of ${seasons.join(', ')}, log line ${answer.line}.`);
    return 0;
  } finally {
    book.close();
  }
}

/** Where the form of the file is amiss already, its cells are read all the same, so that everything is told at once. */
function allProblems(file: string, { rows, lacking }: RawTable, problems: readonly Problem[]): string[] {
  const cells = problemList();
  if (lacking.size === 0 && rows.length > 0) checkPriceList(file, rows, cells.report);
  return sortProblems([...problems, ...cells.problems]).map(problemLine);
}

function refusedLine({ field, message }: Refusal): string {
  return field === undefined ? message : `${field}: ${message}`;
}

function refuseAll(problems: readonly string[], voice: Voice): ExitCode {
  for (const problem of problems) voice.warn(problem);
  voice.say(`Nothing was taken in: ${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}.`);
  return 1;
}

import { existsSync } from 'node:fs';
import { importFolder, problemsOf } from '../exchange/import-folder.ts';
import { problemLine } from '../exchange/problem.ts';
import { type FolderRead, readFolder } from '../exchange/read-folder.ts';
import { type Book, openBook } from '../open.ts';
import type { ExitCode, Subcommand, Voice } from './io.ts';
import { makeBook } from './make-book.ts';

export const WORKER = 'command line';

export const importCommand: Subcommand = {
  name: 'import',
  takes: '<folder>',
  takesSale: false,
  says: 'takes a sale into the book from an exchange folder, all or nothing',
  run({ book: file, path }, voice) {
    const folder = readFolder(path);
    for (const name of folder.ignored) voice.warn(`${name} is not a file of an exchange folder and was not read.`);
    if (existsSync(file)) return importInto(openBook(file), folder, voice);
    // A book is made only for a folder that can go into it.
    const problems = problemsOf(folder, null).map(problemLine);
    if (problems.length > 0) return refuseAll(problems, voice);
    const made = makeBook(file);
    if (!made.ok) return refuseAll([made.message], voice);
    voice.warn(`There was no book at ${file}: an empty one was made.`);
    return importInto(openBook(file), folder, voice);
  },
};

function importInto(book: Book, folder: FolderRead, voice: Voice): ExitCode {
  try {
    const problems = problemsOf(folder, book).map(problemLine);
    if (problems.length > 0) return refuseAll(problems, voice);
    const done = importFolder(book, folder, { worker: WORKER, at: new Date().toISOString() });
    if (!done.ok) return refuseAll(done.problems, voice);
    const held = done.onHold > 0 ? ` (${done.onHold} on hold for their tags)` : '';
    voice.say(
      `Imported ${done.name}: ${counted(done.lots, 'lot')}${held}, ${counted(done.people, 'person')}, log line ${done.line}.`,
    );
    return 0;
  } finally {
    book.close();
  }
}

function refuseAll(problems: readonly string[], voice: Voice): ExitCode {
  for (const problem of problems) voice.warn(problem);
  voice.say(`Nothing was imported: ${counted(problems.length, 'problem')}.`);
  return 1;
}

function counted(n: number, noun: 'lot' | 'person' | 'problem'): string {
  if (n === 1) return `1 ${noun}`;
  return `${n} ${noun === 'person' ? 'people' : `${noun}s`}`;
}

/** What a subcommand is given, and how it answers. */

export interface Given {
  /** The book's file, as an absolute path. */
  readonly book: string;
  /** The folder or file that the subcommand is about, as an absolute path, or an address; empty where it takes none. */
  readonly path: string;
  /** The sale's name or id, where one was named. */
  readonly sale: string | undefined;
}

/** Where a subcommand says what it did, and what is wrong: one line at a time. */
export interface Voice {
  say(line: string): void;
  warn(line: string): void;
}

/** 0: well. 1: something is wrong, and the book is as it was. 2: the command was not understood. */
export type ExitCode = 0 | 1 | 2;

export interface Subcommand {
  readonly name: string;
  /** What it takes besides the book, as the usage shows it: `<folder>`, or nothing. */
  readonly takes: '' | '<folder>' | '<file>' | '<address>';
  readonly takesSale: boolean;
  readonly says: string;
  run(given: Given, voice: Voice): ExitCode | Promise<ExitCode>;
}

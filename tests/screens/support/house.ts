import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { tempFile } from '#tests/support/temp.ts';
import { theBrowser } from './browser.ts';
import { type Server, startServer } from './server.ts';

export interface TestHouse {
  readonly bookFile: string;
  /** Both are there once the tests run, and not while their file is read. */
  readonly server: Server;
  readonly browser: Browser;
}

/** A book, its server and a browser for the tests of one file; `fill` puts into the book what they begin with. */
export function testHouse(fill: (bookFile: string) => void = () => {}): TestHouse {
  const bookFile = tempFile();
  const open: { server?: Server; browser?: Browser } = {};
  beforeAll(async () => {
    fill(bookFile);
    open.server = await startServer({ bookFile });
    open.browser = await theBrowser();
  });
  afterAll(async () => {
    await open.server?.stop();
  });
  return {
    bookFile,
    get server() {
      return there(open.server);
    },
    get browser() {
      return there(open.browser);
    },
  };
}

function there<T>(one: T | undefined): T {
  if (one === undefined) throw new Error('The house opens before the first test, and not while the file is read.');
  return one;
}

/** The demo behind a server of its own, for programs that look at it. */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import type { Browser, BrowserContext } from 'playwright-core';
import { DEMO_WORKER } from '#seed/calendar.ts';
import { openBrowser } from './chromium.ts';
import { type Server, startServer } from './server.ts';

/** Served and open while the work goes on; the book is made in the folder. */
export interface Demo {
  readonly server: Server;
  readonly browser: Browser;
}

export async function withDemo(folder: string, work: (demo: Demo) => Promise<void>): Promise<void> {
  const bookFile = join(folder, 'demo.book');
  execFileSync(process.execPath, ['node_modules/tsx/dist/cli.mjs', 'seed/fill.ts', bookFile], { stdio: 'inherit' });
  // A process of its own: the one that is shared ends with a worker of the tests, and here is none.
  const server = await startServer({ bookFile, openLine: false, env: {} });
  const browser = await openBrowser();
  try {
    await work({ server, browser });
  } finally {
    await browser.close();
    await server.stop();
  }
}

/** A browser's window in this theme, with the worker of the demo signed in. */
export async function signedIn({ browser, server }: Demo, theme: string): Promise<BrowserContext> {
  const context = await browser.newContext({ reducedMotion: 'reduce' });
  await context.addInitScript((name) => localStorage.setItem('peltry-theme', name), theme);
  const answer = await context.request.post(`${server.url}/api/sign-in`, {
    data: DEMO_WORKER,
    headers: { origin: server.url, 'x-station': 'sign-in' },
  });
  if (!answer.ok()) throw new Error(`Signing in to the demo: ${answer.status()}`);
  return context;
}

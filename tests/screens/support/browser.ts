import type { Browser, BrowserContext, BrowserContextOptions, Page, Response } from 'playwright-core';
import { afterAll, onTestFinished } from 'vitest';
import { openBrowser } from './chromium.ts';

export { HALL_HOST } from './chromium.ts';

/** How long a page is waited for: what has not come by then hangs. It is no claim of speed. */
const WAIT_MS = 120_000;

let shared: Browser | undefined;

/**
 * The browser of this worker: one for all files of tests that run in it, because each test has a context of its own.
 * It is closed with the worker. One that broke down is replaced for the next file.
 */
export async function theBrowser(): Promise<Browser> {
  if (!shared?.isConnected()) {
    // Vitest ends a worker by this signal; leaving so takes the browser and its profile along.
    if (!shared) process.once('SIGTERM', () => process.exit());
    shared = await openBrowser({ handleSIGTERM: false });
  }
  return shared;
}

type Kept = 'timezoneId' | 'javaScriptEnabled' | 'colorScheme' | 'storageState' | 'ignoreHTTPSErrors';

export interface PageOptions extends Pick<BrowserContextOptions, Kept> {
  /** In CSS pixels; 1280 × 800 where not given. */
  readonly viewport?: { readonly width: number; readonly height: number };
  /** Troubles this test brings about on purpose, such as a cut line: what matches is not held against it. */
  readonly expected?: readonly RegExp[];
}

/**
 * Opens a page in a context of its own (its own cookies and storage), closed when the test ends.
 * The test fails where the page then had a console error or warning, an uncaught error, a 5xx answer, or a script, style,
 * font or picture that did not come. Call it inside a test.
 */
export async function newPage(browser: Browser, options: PageOptions = {}): Promise<Page> {
  const { page, close } = await openPage(browser, options);
  onTestFinished(close);
  return page;
}

/**
 * One such page for all tests of a `describe` whose tests go on where the one before left it: made ready for the first
 * that asks for it, and closed behind the last, which is when its troubles are told.
 */
export function pageOfAll(open: () => Browser, ready: (page: Page) => Promise<void>): () => Promise<Page> {
  let opened: Awaited<ReturnType<typeof openPage>> | undefined;
  afterAll(() => opened?.close());
  return async () => {
    if (opened) return opened.page;
    opened = await openPage(open(), {});
    await ready(opened.page);
    return opened.page;
  };
}

async function openPage(browser: Browser, options: PageOptions) {
  const { expected = [], viewport = { width: 1280, height: 800 }, ...rest } = options;
  const context = await browser.newContext({ ...rest, viewport });
  context.setDefaultTimeout(WAIT_MS);
  const page = await context.newPage();
  const troubles = watchForTroubles(context);
  const close = async () => {
    await context.close();
    const unexpected = troubles.filter((trouble) => !expected.some((pattern) => pattern.test(trouble)));
    if (unexpected.length > 0) throw new Error(`The page had troubles:\n${unexpected.join('\n')}`);
  };
  return { page, close };
}

const PARTS = new Set(['script', 'stylesheet', 'font', 'image']);

// The browser writes this line for every 4xx answer; a refusal is a right answer, and a missing part is caught below.
const REFUSED = /^Failed to load resource: the server responded with a status of 4\d\d/;

function badAnswer(response: Response): string | null {
  const status = response.status();
  const type = response.request().resourceType();
  const bad = status >= 500 || (status >= 400 && PARTS.has(type));
  return bad ? `${status} for the ${type} ${response.url()}` : null;
}

/** Collects, as sentences, what goes wrong on every page of a context. The list grows while the test runs. */
export function watchForTroubles(context: BrowserContext): string[] {
  const troubles: string[] = [];
  context.on('console', (message) => {
    const type = message.type();
    if ((type !== 'error' && type !== 'warning') || REFUSED.test(message.text())) return;
    troubles.push(`console ${type}: ${message.text()}`);
  });
  context.on('weberror', (event) => troubles.push(`uncaught error: ${event.error().message}`));
  context.on('response', (response) => {
    const trouble = badAnswer(response);
    if (trouble !== null) troubles.push(trouble);
  });
  return troubles;
}

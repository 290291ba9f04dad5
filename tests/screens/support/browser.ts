import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { watchForTroubles } from './troubles.ts';

export { HALL_HOST, openBrowser } from './chromium.ts';

type Kept = 'javaScriptEnabled' | 'colorScheme' | 'storageState' | 'ignoreHTTPSErrors';

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
  const { expected = [], viewport = { width: 1280, height: 800 }, ...rest } = options;
  const context = await browser.newContext({ ...rest, viewport });
  const page = await context.newPage();
  const troubles = watchForTroubles(context);
  onTestFinished(async () => {
    await context.close();
    const unexpected = troubles.filter((trouble) => !expected.some((pattern) => pattern.test(trouble)));
    if (unexpected.length > 0) throw new Error(`The page had troubles:\n${unexpected.join('\n')}`);
  });
  return page;
}

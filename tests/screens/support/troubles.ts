import type { BrowserContext, Response } from 'playwright-core';

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

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';

const BUILT = fileURLToPath(new URL('../../.next/', import.meta.url));

/** The scripts that the build names for a page, the framework's first ones left out. */
function namedFor(page: string): string[] {
  const named = readFileSync(`${BUILT}server/app/${page}/page_client-reference-manifest.js`, 'utf8');
  const everywhere = JSON.parse(readFileSync(`${BUILT}build-manifest.json`, 'utf8'));
  const framework = new Set<string>([...everywhere.rootMainFiles, ...everywhere.polyfillFiles]);
  const names = new Set([...named.matchAll(/static\/chunks\/[^"']+\.js/g)].map(([name]) => name));
  return [...names].filter((name) => !framework.has(name));
}

/** What a page loads beyond what every page has, in bytes as gzip sends them. A page that is not found has no more. */
function scriptsOf(page: string): { readonly bytes: number; readonly text: string } {
  const everyPage = new Set(namedFor('_not-found'));
  const files = namedFor(page)
    .filter((name) => !everyPage.has(name))
    .map((name) => readFileSync(BUILT + name));
  return { bytes: files.reduce((sum, file) => sum + gzipSync(file).length, 0), text: files.join('\n') };
}

describe('the code that a browser loads beyond what every page has', () => {
  it.each([
    ['(stations)/block', 22_500],
    ['(hall)/board', 2_500],
  ])('%s stays below %i bytes, its libraries with it', (page, most) => {
    const { bytes } = scriptsOf(page);
    expect(bytes).toBeGreaterThan(1000);
    expect(bytes).toBeLessThan(most);
  });

  it('holds no library of decimals at the Block', () => {
    expect(scriptsOf('(stations)/block').text).not.toContain('[DecimalError]');
  });
});

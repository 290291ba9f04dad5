import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuild } from './support/server.ts';

const BUILT = fileURLToPath(new URL('../../.next/', import.meta.url));

/** The scripts that a page loads beyond those every page has, in bytes as gzip sends them. */
function scriptsOf(page: string): { readonly bytes: number; readonly text: string } {
  const named = readFileSync(`${BUILT}server/app/${page}/page_client-reference-manifest.js`, 'utf8');
  const everywhere = JSON.parse(readFileSync(`${BUILT}build-manifest.json`, 'utf8'));
  const framework = new Set<string>([...everywhere.rootMainFiles, ...everywhere.polyfillFiles]);
  const names = new Set([...named.matchAll(/static\/chunks\/[^"']+\.js/g)].map(([name]) => name));
  const files = [...names].filter((name) => !framework.has(name)).map((name) => readFileSync(BUILT + name));
  return { bytes: files.reduce((sum, file) => sum + gzipSync(file).length, 0), text: files.join('\n') };
}

beforeAll(() => ensureBuild());

describe('the code that a browser loads beyond the framework', () => {
  it.each([
    ['(stations)/block', 26_000],
    ['(hall)/board', 6_000],
  ])('%s stays below %i bytes, libraries and the framework’s links with it', (page, most) => {
    expect(scriptsOf(page).bytes).toBeLessThan(most);
  });

  it('holds no library of decimals at the Block', () => {
    expect(scriptsOf('(stations)/block').text).not.toContain('[DecimalError]');
  });
});

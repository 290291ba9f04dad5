/** What the build has a page load, read out of the build itself. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const BUILT = fileURLToPath(new URL('../../../.next/', import.meta.url));

const CHUNK = /static\/chunks\/[^"']+\.js/g;

export interface Scripts {
  /** Their paths, as they end in an address. */
  readonly names: readonly string[];
  readonly text: string;
  /** As gzip sends them. */
  readonly bytes: number;
}

/** The scripts that the build names for a page, the framework's first ones left out. */
function namedFor(page: string): string[] {
  const named = readFileSync(`${BUILT}server/app/${page}/page_client-reference-manifest.js`, 'utf8');
  const everywhere = JSON.parse(readFileSync(`${BUILT}build-manifest.json`, 'utf8'));
  const framework = new Set<string>([...everywhere.rootMainFiles, ...everywhere.polyfillFiles]);
  return namesIn(named).filter((name) => !framework.has(name));
}

function namesIn(text: string): string[] {
  return [...new Set([...text.matchAll(CHUNK)].map(([name]) => name))];
}

function read(names: readonly string[]): Scripts {
  const files = names.map((name) => readFileSync(BUILT + name));
  const bytes = files.reduce((sum, file) => sum + gzipSync(file).length, 0);
  return { names, text: files.join('\n'), bytes };
}

/** What a page loads at first, beyond what every page has. A page that is not found has no more. */
export function firstScripts(page: string): Scripts {
  const everyPage = new Set(namedFor('_not-found'));
  return read(namedFor(page).filter((name) => !everyPage.has(name)));
}

/** What the first scripts of a page fetch behind themselves: they name it. */
export function scriptsBehind(page: string): Scripts {
  const first = firstScripts(page);
  const loaded = new Set([...first.names, ...namedFor(page)]);
  return read(namesIn(first.text).filter((name) => !loaded.has(name)));
}

// Brings the packages of package-lock.json, and sees that the one with a native part loads.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { aptInstall, canApt } from './apt.mjs';
import { quietly, ROOT, run, say } from './shell.mjs';

const NATIVE = "new (require('better-sqlite3'))(':memory:').close()";

const read = (path) => JSON.parse(readFileSync(join(ROOT, path), 'utf8')).packages;

/**
 * Whether node_modules holds what the lock file asks for. Versions are compared, not file times:
 * a fresh checkout touches the lock file without changing a word of it.
 */
export function packagesAreStale() {
  if (!existsSync(join(ROOT, 'node_modules/.package-lock.json'))) return true;
  const have = read('node_modules/.package-lock.json');
  return Object.entries(read('package-lock.json')).some(
    ([path, wanted]) => path !== '' && !wanted.optional && have[path]?.version !== wanted.version,
  );
}

const nativeLoads = () => quietly(process.execPath, ['-e', NATIVE]);

/**
 * Makes node_modules what the lock file says, without what packages would run there: {@link ensureNative} does the one
 * thing of it that is needed. npm would take everything away again when the native build fails.
 */
export async function fetchPackages() {
  if (!packagesAreStale()) return true;
  console.log('Fetching the packages of package-lock.json (npm ci)');
  return (await run('npm', ['ci', '--ignore-scripts', '--prefer-offline', '--no-audit', '--no-fund'])) === 0;
}

/** Sees that better-sqlite3 loads. Where no ready-made binary can be had it is compiled: with a compiler, make, Python. */
export async function ensureNative() {
  if (nativeLoads()) return true;
  const rebuild = () => run('npm', ['rebuild', 'better-sqlite3']);
  await rebuild();
  if (nativeLoads()) return true;
  const tools = ['g++', 'make', 'python3'];
  if (canApt() && (await aptInstall(tools))) await rebuild();
  if (nativeLoads()) return true;
  say(`better-sqlite3 does not load. Install ${tools.join(', ')}, then run: npm rebuild better-sqlite3`);
  return false;
}

/** All packages, so that the project can run. */
export const ensurePackages = async () => (await fetchPackages()) && (await ensureNative());

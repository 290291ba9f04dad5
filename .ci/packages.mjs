// Brings the packages of package-lock.json, and sees that the one with a native part loads.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { aptInstall, canApt } from './apt.mjs';
import { quietly, ROOT, run } from './shell.mjs';

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

/** Where no ready-made binary could be fetched, better-sqlite3 is compiled, which wants a compiler, make and Python. */
async function buildNative() {
  const tools = ['g++', 'make', 'python3'];
  if (canApt()) await aptInstall(tools);
  await run('npm', ['rebuild', 'better-sqlite3']);
  if (nativeLoads()) return true;
  console.log(`better-sqlite3 does not load. Install ${tools.join(', ')}, then run: npm rebuild better-sqlite3`);
  return false;
}

/** Makes node_modules what the lock file says. Gives true when the project can run. */
export async function ensurePackages() {
  if (packagesAreStale()) {
    console.log('Fetching the packages of package-lock.json (npm ci)');
    const code = await run('npm', ['ci', '--no-audit', '--no-fund']);
    if (code !== 0 && packagesAreStale()) {
      // npm takes everything away again when the one native build fails, so the packages come first and it after.
      if ((await run('npm', ['ci', '--no-audit', '--no-fund', '--ignore-scripts'])) !== 0) return false;
    }
  }
  return nativeLoads() || buildNative();
}

// The production build, made only when the sources changed since the last one. Run by itself it builds where needed;
// `--programs` bundles only what runs outside the framework, for `npm run dev`.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bin, node, ROOT } from './shell.mjs';

const FOLDERS = ['app', 'lib', 'db', 'public'];
const FILES = ['next.config.mjs', 'postcss.config.mjs', 'package.json', 'package-lock.json', 'tsconfig.json'];
const ROOT_CODE = ['proxy.ts', 'instrumentation.ts', 'instrumentation-client.ts'];

export const dist = () => process.env.PELTRY_DIST ?? '.next';
const stamp = () => join(ROOT, dist(), 'sources.sha256');

function sourceFiles() {
  const inFolders = FOLDERS.filter((folder) => existsSync(join(ROOT, folder))).flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true })
      .map((name) => join(ROOT, folder, name))
      .filter((path) => statSync(path).isFile()),
  );
  const single = [...FILES, ...ROOT_CODE].map((file) => join(ROOT, file)).filter((file) => existsSync(file));
  return [...inFolders, ...single].sort();
}

/** A digest of everything the build reads. Contents, not file times: those change with every checkout. */
export function sourcesDigest() {
  const hash = createHash('sha256');
  for (const file of sourceFiles()) {
    hash.update(file.slice(ROOT.length)).update('\0').update(readFileSync(file)).update('\0');
  }
  return hash.digest('hex');
}

/** Whether the build that lies there was made from these very sources. */
export const buildIsFresh = () => existsSync(stamp()) && readFileSync(stamp(), 'utf8') === sourcesDigest();

/** What Node runs outside the framework, by the name of its bundle: see app/server/programs.mjs. */
const PROGRAMS = { server: 'app/server/book.ts', cli: 'db/cli.ts', papers: 'app/papers/work.ts' };

/** What has a native part, looks for files beside itself, or is rarely needed; the rest loads twice as fast in a bundle. */
const EXTERNAL = ['better-sqlite3', '@peculiar/*', 'reflect-metadata', 'next', 'react', 'piscina', 'bwip-js'].concat([
  '@react-pdf/renderer',
  '@cantoo/pdf-lib',
  'dejavu-fonts-ttf',
]);

/** The marker of server code, which only the framework's own bundler can judge, is empty here. */
const serverOnly = {
  name: 'server-only',
  setup(bundler) {
    bundler.onResolve({ filter: /^server-only$/ }, () => ({ path: 'server-only', namespace: 'empty' }));
    bundler.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({ contents: '' }));
  },
};

/** Bundles for Node, a file a program and what they share. */
export async function bundlePrograms(folder = join(ROOT, dist(), 'programs')) {
  const { build: bundle } = await import('esbuild');
  rmSync(folder, { recursive: true, force: true });
  await bundle({
    ...{ absWorkingDir: ROOT, entryPoints: PROGRAMS, outdir: folder, outExtension: { '.js': '.mjs' } },
    ...{
      bundle: true,
      splitting: true,
      external: EXTERNAL,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      jsx: 'automatic',
    },
    ...{ plugins: [serverOnly], sourcemap: 'linked', logLevel: 'warning' },
  });
}

/** Builds; true when that went well. The digest is taken before, so that a change made meanwhile counts as a change. */
export async function build({ limitMs = 0 } = {}) {
  const digest = sourcesDigest();
  const code = await node([bin('next/dist/bin/next'), 'build'], { env: { NODE_ENV: 'production' }, limitMs });
  if (code !== 0) return false;
  await bundlePrograms();
  writeFileSync(stamp(), digest);
  return true;
}

/** A fresh build, made if need be. */
export const ensureBuild = async (options) => buildIsFresh() || build(options);

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  if (process.argv.includes('--programs')) await bundlePrograms();
  else process.exitCode = (await ensureBuild()) ? 0 : 1;
}

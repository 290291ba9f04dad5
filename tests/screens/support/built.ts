import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

/** Once before all screens: builds the application where the last build is not of these sources. */
export default function ensureBuild(): void {
  const made = spawnSync(process.execPath, [`${ROOT}.ci/build.mjs`], { cwd: ROOT, encoding: 'utf8' });
  if (made.status !== 0) throw new Error(`The build failed:\n${made.stdout}${made.stderr}`);
}

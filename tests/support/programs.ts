/** Once before the tests: bundles the programs that run outside the framework, as a build does, from the sources here. */
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bundlePrograms } from '../../.ci/build.mjs';

export default async function makePrograms(): Promise<() => void> {
  // Below the packages, where a bundle finds them; the projects of a check run side by side.
  const folder = fileURLToPath(new URL(`../../node_modules/.cache/peltry-programs-${process.pid}`, import.meta.url));
  await bundlePrograms(folder);
  process.env.PELTRY_PROGRAMS = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}

// The system's package manager, where this is Debian (or a child of it) and we may use it.
import { run, which } from './shell.mjs';

let listsAreFresh = false;

/** Whether programs can be brought here without asking anybody. */
export const canApt = () => process.getuid?.() === 0 && which('apt-get') !== null;

/** Installs Debian packages; true when apt-get said it did. */
export async function aptInstall(packages) {
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  if (!listsAreFresh) listsAreFresh = (await run('apt-get', ['update', '-qq'], { env })) === 0;
  return (await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], { env })) === 0;
}

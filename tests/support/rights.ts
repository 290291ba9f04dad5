import { chmodSync, existsSync } from 'node:fs';
import { dirname } from 'node:path';

/**
 * Does the work with the rights of an ordinary account, since the administrator may write everywhere. Whatever it
 * imports must be loaded already: the account may not be able to read the project.
 */
function asNobodySpecial<T>(work: () => T): T {
  const { geteuid, seteuid } = process;
  if (!geteuid || !seteuid || geteuid() !== 0) return work();
  seteuid(65_534);
  try {
    return work();
  } finally {
    seteuid(0);
  }
}

/** Does the work so while the file may only be read and nothing can be added to its folder. */
export function whileLocked<T>(file: string, work: () => T): T {
  const folder = dirname(file);
  if (existsSync(file)) chmodSync(file, 0o444);
  chmodSync(folder, 0o555);
  try {
    return asNobodySpecial(work);
  } finally {
    chmodSync(folder, 0o755);
  }
}

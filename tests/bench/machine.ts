/** The machine in one sentence: what a reader needs to judge the figures by, and nothing that tells whose it is. */
import { availableParallelism, cpus, totalmem } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';

export function machineWords(): string {
  const gigabytes = Math.round(totalmem() / 2 ** 30);
  const clock = cpus()[0]?.speed ?? 0;
  const speed = clock > 0 ? ` at ${clock} MHz` : '';
  return `Measured with Node ${process.versions.node} on ${availableParallelism()} cores${speed} with ${gigabytes} GB of memory (${process.platform}, ${process.arch}).`;
}

const LOOK_MS = 3000;

/**
 * How many cores other programs keep busy just now. Not the load average: a minute later that still counts the row
 * before.
 */
export async function busyCores(): Promise<number> {
  const before = times();
  await sleep(LOOK_MS);
  const after = times();
  return ((after.busy - before.busy) / (after.all - before.all)) * availableParallelism();
}

function times(): { readonly busy: number; readonly all: number } {
  const each = cpus().map((core) => core.times);
  const all = each.reduce((so, { user, nice, sys, irq, idle }) => so + user + nice + sys + irq + idle, 0);
  return { all, busy: all - each.reduce((so, { idle }) => so + idle, 0) };
}

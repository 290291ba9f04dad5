/** The machine in one sentence: what a reader needs to judge the figures by, and nothing that tells whose it is. */
import { availableParallelism, cpus, totalmem } from 'node:os';

export function machineWords(): string {
  const gigabytes = Math.round(totalmem() / 2 ** 30);
  const clock = cpus()[0]?.speed ?? 0;
  const speed = clock > 0 ? ` at ${clock} MHz` : '';
  return `Measured with Node ${process.versions.node} on ${availableParallelism()} cores${speed} with ${gigabytes} GB of memory (${process.platform}, ${process.arch}).`;
}

/** The other end of a child's pipe: says that it is ready, and waits for its orders. */
import { writeSync } from 'node:fs';

/** What is written is in the pipe before this returns, whatever happens to the process afterwards. */
export function say(text: string): void {
  writeSync(1, `${text}\n`);
}

export function onOrders<T>(work: (orders: T) => void): void {
  process.stdin.once('data', (line) => work(JSON.parse(line.toString()) as T));
  say('ready');
}

/** A second laptop that takes over, to be killed in the middle of it. */
import { commandLine } from '#db/cli/main.ts';
import { onOrders, say } from './orders.ts';

onOrders<{ readonly file: string }>(({ file }) => {
  void commandLine(['take-over', '--book', file], { say, warn: say });
});

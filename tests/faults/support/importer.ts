/** Imports an exchange folder into a book, and says so once the door has answered. */

import { openBook } from '#db/book/open.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { readFolder } from '#db/exchange/read-folder.ts';
import { onOrders, say } from './orders.ts';

onOrders<{ readonly file: string; readonly folder: string }>(({ file, folder }) => {
  const done = importFolder(openBook(file), readFolder(folder), { worker: 'Ada', at: '2026-02-28T10:00:00Z' });
  if (!done.ok) throw new Error(done.problems.join('\n'));
  say(`imported ${done.line}`);
  process.exit(0);
});

import * as z from 'zod';
import { defineCommand } from '#db/book/command.ts';
import { someText, text } from '#db/book/inputs.ts';
import { insertRow } from '#db/book/rows.ts';
import { takeover } from '#db/schema/index.ts';
import { accept } from '#lib/result/result.ts';
import { epochOf } from './epoch.ts';

const HIGHEST_EPOCH = 999_999;

/**
 * Begins the next epoch of the book: from here on the laptop that says so leads. Nothing but `take-over` and `restore`
 * gives it, on the command line of that laptop.
 */
export const bookTakeover = defineCommand({
  name: 'book.takeover',
  summary: 'Says that another laptop leads this book from here on: a second one took over, or a backup was restored.',
  logLabel: 'Book taken over',
  stations: ['office'],
  input: z.strictObject({
    kind: z.enum(['takeover', 'restore'], { error: 'Choose takeover or restore.' }),
    laptop: someText.max(80, { error: 'Enter at most 80 characters.' }),
    /** Where the laptop that led before is told; empty where nobody knows. */
    told: text,
    /** The highest epoch that was heard of elsewhere: this one comes behind it too. */
    above: z.int().min(0).max(HIGHEST_EPOCH).default(0),
    reason: text,
  }),
  run({ book, at, worker, line }, { above, reason, ...said }) {
    const epoch = Math.max(epochOf(book), above) + 1;
    insertRow(book, takeover, { ...said, epoch, reason: reason.trim(), worker, at, line });
    return accept({ epoch });
  },
});

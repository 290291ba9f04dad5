import { z } from 'zod';
import { accept } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { priceSetting } from '../schema/index.ts';

const input = z.strictObject({
  fewest: z
    .int({ error: 'Enter how many as a whole number.' })
    .min(1, { error: 'Enter at least 1.' })
    .max(99, { error: 'Enter at most 99.' }),
});

/** Says how many sellers, and how many buyers, stand behind each price range that the public sees. */
export const pricesFewest = defineCommand({
  name: 'prices.fewest',
  summary: 'Sets how many sellers and buyers a price range has at least before it is shown.',
  logLabel: 'Fewest sellers and buyers behind a shown price set',
  stations: ['office'],
  input,
  run({ book, line }, { fewest }) {
    const row = { id: 1, fewest, line };
    book.db.insert(priceSetting).values(row).onConflictDoUpdate({ target: priceSetting.id, set: row }).run();
    return accept({ fewest });
  },
});

import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId } from '../inputs.ts';
import { workerById } from '../queries/workers.ts';
import { worker } from '../schema/index.ts';
import { passphraseHash } from './worker-fields.ts';

const input = z.strictObject({ workerId: rowId, passphraseHash });

/** Gives a worker another passphrase, of which the book learns only the hash. */
export const workerPassphrase = defineCommand({
  name: 'worker.passphrase',
  summary: 'Gives a worker another passphrase (as its scrypt hash).',
  logLabel: 'Passphrase changed',
  stations: ['office'],
  input,
  run({ book, line }, { workerId, passphraseHash: hash }) {
    if (!workerById(book, workerId)) {
      return refuse('unknown', 'This worker is not in the book: choose one of the list.', 'workerId');
    }
    book.db.update(worker).set({ passphraseHash: hash, line }).where(eq(worker.id, workerId)).run();
    return accept({ workerId });
  },
});

import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, STATIONS } from '../command.ts';
import { workerByName } from '../queries/workers.ts';
import { worker } from '../schema/index.ts';
import { passphraseHash } from './worker-fields.ts';

const input = z.strictObject({ passphraseHash });

/** Gives whoever gives the command another passphrase. That they know the old one is asked before the door. */
export const workerRenew = defineCommand({
  name: 'worker.renew',
  summary:
    'Changes the passphrase (as its scrypt hash) of the worker who gives it: with the old one, at /api/sign-in/passphrase.',
  logLabel: 'Own passphrase changed',
  stations: [...STATIONS],
  input,
  run({ book, line, worker: name }, { passphraseHash: hash }) {
    const own = workerByName(book, name);
    if (!own) return refuse('unknown', 'Only a worker of the book has a passphrase: sign in first.');
    book.db.update(worker).set({ passphraseHash: hash, line }).where(eq(worker.id, own.id)).run();
    return accept({ workerId: own.id });
  },
});

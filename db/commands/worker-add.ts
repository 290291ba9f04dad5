import { z } from 'zod';
import { foldName } from '#lib/fold.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { someText } from '../inputs.ts';
import { hasWorkers, workerByName } from '../queries/workers.ts';
import { insertRow } from '../rows.ts';
import { worker } from '../schema/index.ts';
import { passphraseHash, stationList, stationWords } from './worker-fields.ts';

const LONGEST_NAME = 80;

const input = z.strictObject({
  name: someText.max(LONGEST_NAME, { error: `Enter at most ${LONGEST_NAME} characters.` }),
  stations: stationList,
  passphraseHash,
});

/** Enters a worker. The first one must have the office, or nobody could enter the second. */
export const workerAdd = defineCommand({
  name: 'worker.add',
  summary: 'Enters a worker with a passphrase (as its scrypt hash) and the stations they may work at.',
  logLabel: 'Worker entered',
  stations: ['office'],
  input,
  run({ book, line }, { name, stations, passphraseHash: hash }) {
    if (workerByName(book, name)) return refuse('taken', 'There is already a worker of this name.', 'name');
    if (!hasWorkers(book) && !stations.includes('office')) {
      return refuse('missing', 'The first worker needs the office, to enter the others.', 'stations');
    }
    const words = stationWords(stations);
    const row = { name: name.trim(), nameFolded: foldName(name), passphraseHash: hash, stations: words, line };
    return accept({ workerId: insertRow(book, worker, row) });
  },
});

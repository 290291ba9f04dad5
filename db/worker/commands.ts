import * as z from 'zod';
import { defineCommand, STATIONS, type Station } from '#db/book/command.ts';
import { flag, rowId, someText } from '#db/book/inputs.ts';
import type { Book } from '#db/book/open.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { worker } from '#db/schema/index.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { foldName } from '#lib/result/search.ts';
import { allWorkers, hasWorkers, workerById, workerByName } from './queries.ts';

/** Names the passphrase of a worker; says nothing about it. The hash stands beside the book (`db/sign-in/passphrases.ts`). */
const passphraseMark = z
  .string({ error: 'Enter a passphrase.' })
  .regex(/^[0-9a-f]{64}$/, { error: 'Reload the page and enter the passphrase again.' });

const stationList = z
  .array(z.enum(STATIONS, { error: 'Choose from the stations.' }))
  .min(1, { error: 'Choose at least one station.' })
  .max(STATIONS.length, { error: 'Name each station once.' });

/** The stations as the table holds them. */
function stationWords(stations: readonly Station[]): string {
  return STATIONS.filter((station) => stations.includes(station)).join(' ');
}

/** Somebody must be left who can let others in: refuses a change after which no worker has the office. */
function officeStays(book: Book, changed: { id: number; keepsOffice: boolean }): Result<null> {
  const others = allWorkers(book).some(
    ({ id, hasLeft, stations }) => id !== changed.id && !hasLeft && stations.includes('office'),
  );
  if (changed.keepsOffice || others) return accept(null);
  return refuse('not_allowed', 'Nobody would have the office any more: give it to another worker first.', 'stations');
}

const LONGEST_NAME = 80;

/** Enters a worker. The first one must have the office, or nobody could enter the second. */
export const workerAdd = defineCommand({
  name: 'worker.add',
  summary: 'Enters a worker with a passphrase (of which the book has a mark only) and the stations they may work at.',
  logLabel: 'Worker entered',
  stations: ['office'],
  input: z.strictObject({
    name: someText.max(LONGEST_NAME, { error: `Enter at most ${LONGEST_NAME} characters.` }),
    stations: stationList,
    passphraseMark,
  }),
  run({ book, line }, { name, stations, passphraseMark }) {
    if (workerByName(book, name)) return refuse('taken', 'There is already a worker of this name.', 'name');
    if (!hasWorkers(book) && !stations.includes('office')) {
      return refuse('missing', 'The first worker needs the office, to enter the others.', 'stations');
    }
    const words = stationWords(stations);
    const row = { name: name.trim(), nameFolded: foldName(name), passphraseMark, stations: words };
    return accept({ workerId: addRow({ book, line }, worker, row) });
  },
});

export const workerAmend = defineCommand({
  name: 'worker.amend',
  summary: 'Changes the stations of a worker, or says that they have left or are back.',
  logLabel: 'Worker amended',
  stations: ['office'],
  input: z.strictObject({ workerId: rowId, stations: stationList, hasLeft: flag }),
  run({ book, line }, { workerId, stations, hasLeft }) {
    if (!workerById(book, workerId)) {
      return refuse('unknown', 'This worker is not in the book: choose one of the list.', 'workerId');
    }
    const stays = officeStays(book, { id: workerId, keepsOffice: !hasLeft && stations.includes('office') });
    if (!stays.ok) return stays;
    updateRow({ book, line }, worker, workerId, { stations: stationWords(stations), hasLeft });
    return accept({ workerId });
  },
});

/** Gives a worker another passphrase, of which the book learns only a mark. */
export const workerPassphrase = defineCommand({
  name: 'worker.passphrase',
  summary: 'Gives a worker another passphrase (of which the book has a mark only).',
  logLabel: 'Passphrase changed',
  stations: ['office'],
  input: z.strictObject({ workerId: rowId, passphraseMark }),
  run({ book, line }, { workerId, passphraseMark }) {
    if (!workerById(book, workerId)) {
      return refuse('unknown', 'This worker is not in the book: choose one of the list.', 'workerId');
    }
    updateRow({ book, line }, worker, workerId, { passphraseMark });
    return accept({ workerId });
  },
});

/** Gives whoever gives the command another passphrase. That they know the old one is asked before the door. */
export const workerRenew = defineCommand({
  name: 'worker.renew',
  summary:
    'Changes the passphrase (as a mark) of the worker who gives it: with the old one, at /api/sign-in/passphrase.',
  logLabel: 'Own passphrase changed',
  stations: [...STATIONS],
  input: z.strictObject({ passphraseMark }),
  run({ book, line, worker: name }, { passphraseMark }) {
    const own = workerByName(book, name);
    if (!own) return refuse('unknown', 'Only a worker of the book has a passphrase: sign in first.');
    updateRow({ book, line }, worker, own.id, { passphraseMark });
    return accept({ workerId: own.id });
  },
});

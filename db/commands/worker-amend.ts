import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { flag, rowId } from '../inputs.ts';
import { workerById } from '../queries/workers.ts';
import { worker } from '../schema/index.ts';
import { officeStays, stationList, stationWords } from './worker-fields.ts';

const input = z.strictObject({ workerId: rowId, stations: stationList, hasLeft: flag });

/** Says where a worker may work from now on, and whether they have left. */
export const workerAmend = defineCommand({
  name: 'worker.amend',
  summary: 'Changes the stations of a worker, or says that they have left or are back.',
  logLabel: 'Worker amended',
  stations: ['office'],
  input,
  run({ book, line }, { workerId, stations, hasLeft }) {
    if (!workerById(book, workerId)) {
      return refuse('unknown', 'This worker is not in the book: choose one of the list.', 'workerId');
    }
    const stays = officeStays(book, { id: workerId, keepsOffice: !hasLeft && stations.includes('office') });
    if (!stays.ok) return stays;
    const row = { stations: stationWords(stations), hasLeft, line };
    book.db.update(worker).set(row).where(eq(worker.id, workerId)).run();
    return accept({ workerId });
  },
});

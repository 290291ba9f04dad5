/** The fields of a worker, and the one rule over all workers. */
import { z } from 'zod';
import { accept, type Result, refuse } from '#lib/result.ts';
import { STATIONS, type Station } from '../command.ts';
import type { Book } from '../open.ts';
import { allWorkers } from '../queries/workers.ts';

/** scrypt in the PHC string format: cost as a power of two, block size, parallelism, salt and hash in base64. */
const SCRYPT = /^\$scrypt\$ln=(?:1?\d|20),r=\d{1,2},p=\d{1,2}\$[A-Za-z0-9+/]{22,43}\$[A-Za-z0-9+/]{43,86}$/;

export const passphraseHash = z
  .string({ error: 'Enter a passphrase.' })
  .regex(SCRYPT, { error: 'Reload the page and enter the passphrase again.' });

export const stationList = z
  .array(z.enum(STATIONS, { error: 'Choose from the stations.' }))
  .min(1, { error: 'Choose at least one station.' })
  .max(STATIONS.length, { error: 'Name each station once.' });

/** The stations as the table holds them. */
export function stationWords(stations: readonly Station[]): string {
  return STATIONS.filter((station) => stations.includes(station)).join(' ');
}

/** Somebody must be left who can let others in: refuses a change after which no worker has the office. */
export function officeStays(book: Book, changed: { id: number; keepsOffice: boolean }): Result<null> {
  const others = allWorkers(book).some(
    ({ id, hasLeft, stations }) => id !== changed.id && !hasLeft && stations.includes('office'),
  );
  if (changed.keepsOffice || others) return accept(null);
  return refuse('not_allowed', 'Nobody would have the office any more: give it to another worker first.', 'stations');
}

import { accept, type Result } from '#lib/result.ts';
import type { Book } from '../open.ts';
import { dayIn } from '../queries/local-days.ts';
import { theAssociation } from '../queries/sales.ts';
import { boundsOf, makeAuthority } from './authority.ts';
import { readPair, writePair } from './files.ts';
import { namesOf, permitted, within } from './names.ts';
import { makeServerCertificate } from './server-certificate.ts';

export interface Made {
  readonly names: readonly string[];
  /** ISO 8601 date on which the server's certificate ends. */
  readonly endsOn: string;
  /** Whether the authority is new, so that phones must take it anew. */
  readonly newAuthority: boolean;
}

/**
 * Makes the server's certificate for the names of today, by the authority that is there or by a new one.
 * Refused where the authority that is there may not vouch for one of the names.
 */
export async function makeCertificate(book: Book, now: Date): Promise<Result<Made>> {
  const wanted = namesOf(book);
  const known = await readPair(book.file, 'authority');
  const authority =
    known ??
    (await makeAuthority(theAssociation(book)?.name ?? 'Peltry', permitted([...wanted.own, ...wanted.said]), now));
  const names = within(wanted, boundsOf(authority.certificate));
  if (!names.ok) return names;
  const server = await makeServerCertificate(authority, names.value, now);
  if (!known) await writePair(book.file, 'authority', authority);
  await writePair(book.file, 'server', server);
  const endsOn = dayIn(book, server.certificate.notAfter.toISOString());
  return accept({ names: names.value.map(({ value }) => value), endsOn, newAuthority: !known });
}

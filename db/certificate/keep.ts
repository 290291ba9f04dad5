/** Keeps the certificate of this machine good by itself, and lets the authority go from one laptop to the next. */
import { createPrivateKey, X509Certificate } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import * as z from 'zod';
import type { Book } from '#db/book/open.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import {
  certificateFile,
  certificateFolder,
  certificateOf,
  coversHost,
  type Holder,
  type HostEntry,
  isLocal,
  keyFile,
  namesOf,
} from './names.ts';

/** What the encrypted line is served with, as PEM. */
export interface Keys {
  readonly cert: string;
  readonly key: string;
}

interface Kept extends Keys {
  /** Whether it was made just now. */
  readonly fresh: boolean;
}

const DAY_MS = 86_400_000;
/** A certificate that was made this long ago is made anew: a device whose clock is a year fast takes the newest only. */
const OLD_DAYS = 5;
/** See `DAYS` in certificate.ts: what is left of a new one. */
const WHOLE_DAYS = 410;

/** Certificate and key that lie beside the book; null where there are none. */
export function keysOf(bookFile: string, holder: Holder = 'server'): Keys | null {
  const [cert, key] = [certificateFile(bookFile, holder), keyFile(bookFile, holder)];
  return existsSync(cert) && existsSync(key)
    ? { cert: readFileSync(cert, 'utf8'), key: readFileSync(key, 'utf8') }
    : null;
}

/**
 * The keys of today: those that are there as long as they are good for every name and address of this machine, otherwise
 * made anew by the same authority. Refused where the office has named a host that the authority may not vouch for.
 */
export async function keepCertificate(book: Book, now: Date): Promise<Result<Kept>> {
  const there = keysOf(book.file);
  if (there && whyAnew(book, now) === '') return accept({ ...there, fresh: false });
  // Its libraries are slow to load: only where something is to be made.
  const { makeCertificate } = await import('./certificate.ts');
  const made = await makeCertificate(book, now);
  if (!made.ok) return made;
  const keys = keysOf(book.file);
  return keys ? accept({ ...keys, fresh: true }) : refuse('missing', 'The certificate was made and is not there.');
}

/** Why the certificate of this machine is to be made anew, in a word for tests and for the terminal; empty where it is good. */
export function whyAnew(book: Book, now: Date): string {
  const [authority, server] = [certificateOf(book.file, 'authority'), certificateOf(book.file, 'server')];
  if (!authority || !server) return 'none';
  if (!server.verify(authority.publicKey)) return 'another authority';
  const left = (Date.parse(server.validTo) - now.getTime()) / DAY_MS;
  // An authority near its own end gives what it has.
  const most = Math.min(WHOLE_DAYS, (Date.parse(authority.validTo) - now.getTime()) / DAY_MS);
  if (left < most - OLD_DAYS) return 'old';
  if (left > WHOLE_DAYS + 1) return 'made by a clock that was fast';
  // What the authority may not vouch for, such as a public address, would be left out of a new one too.
  const { said } = namesOf(book);
  const missing = uncovered(book, server);
  return missing.some((name) => isLocal(name) || said.some(({ value }) => value === name.value)) ? 'addresses' : '';
}

/** Names and addresses of this machine that its certificate is not for: a browser there is warned. */
export function uncovered(book: Book, server = certificateOf(book.file, 'server')): HostEntry[] {
  const { own, said } = namesOf(book);
  return [...own, ...said].filter(({ value }) => !server || !coversHost(server, value));
}

/** The authority with its signing key, as it goes to a paired laptop, over an encrypted line only. */
export const carriedAuthority = z.strictObject({
  ...{ cert: z.string().max(8000), key: z.string().max(8000) },
  /** The recovery words, which stay the same on every laptop: they stand on paper. */
  words: z.string().max(200).optional(),
});

/**
 * Takes the authority of the first laptop, so that this one serves the hall under the same one. Another authority that
 * lay here is put aside. Refused where the key does not belong to the certificate.
 */
export function takeAuthority(bookFile: string, { cert, key }: Keys): Result<'taken' | 'had'> {
  if (!belongTogether(cert, key)) return refuse('malformed', 'The authority of the first laptop cannot be read.');
  if (keysOf(bookFile, 'authority')?.cert === cert) return accept('had');
  mkdirSync(certificateFolder(bookFile), { recursive: true, mode: 0o700 });
  for (const [file, text, mode] of [
    [keyFile(bookFile, 'authority'), key, 0o600],
    [certificateFile(bookFile, 'authority'), cert, 0o644],
  ] as const) {
    if (existsSync(file)) renameSync(file, `${file}.before`);
    writeFileSync(`${file}.new`, text, { mode });
    renameSync(`${file}.new`, file);
  }
  return accept('taken');
}

function belongTogether(cert: string, key: string): boolean {
  try {
    const certificate = new X509Certificate(cert);
    return certificate.ca && certificate.checkPrivateKey(createPrivateKey(key));
  } catch {
    return false;
  }
}

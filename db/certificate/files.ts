/** Where the certificates of a book lie: a folder beside it, which no backup takes along. */

import { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export type Holder = 'authority' | 'server';

export function certificateFolder(bookFile: string): string {
  return `${bookFile}.certificate`;
}

export function certificateFile(bookFile: string, holder: Holder): string {
  return join(certificateFolder(bookFile), `${holder}.pem`);
}

export function keyFile(bookFile: string, holder: Holder): string {
  return join(certificateFolder(bookFile), `${holder}.key`);
}

/** The SHA-256 of a certificate in pairs of hexadecimal digits, as phones show it; undefined where there is none. */
export function fingerprintOf(bookFile: string, holder: Holder = 'authority'): string | undefined {
  return certificateOf(bookFile, holder)?.fingerprint256;
}

/** A certificate as Node reads it, which needs no library: for the server, which makes none. */
export function certificateOf(bookFile: string, holder: Holder): X509Certificate | undefined {
  const file = certificateFile(bookFile, holder);
  return existsSync(file) ? new X509Certificate(readFileSync(file)) : undefined;
}

/** Where the certificates of a book lie: a folder beside it, which no backup takes along. */
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

/** Reads and writes the certificates of a book with their keys. */
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import * as x509 from '@peculiar/x509';
import { ALGORITHM, type Authority } from './authority.ts';
import { certificateFile, certificateFolder, type Holder, keyFile } from './paths.ts';

/** Reads a certificate and its key; undefined where there is none. */
export async function readPair(bookFile: string, holder: Holder): Promise<Authority | undefined> {
  const [pem, key] = [certificateFile(bookFile, holder), keyFile(bookFile, holder)];
  if (!existsSync(pem) || !existsSync(key)) return undefined;
  const der = x509.PemConverter.decodeFirst(readFileSync(key, 'utf8'));
  return {
    certificate: new x509.X509Certificate(readFileSync(pem, 'utf8')),
    key: await crypto.subtle.importKey('pkcs8', der, ALGORITHM, false, ['sign']),
  };
}

/** Writes both, the key for its owner's eyes only. Each is written beside its place first and then moved there. */
export async function writePair(bookFile: string, holder: Holder, { certificate, key }: Authority): Promise<void> {
  mkdirSync(certificateFolder(bookFile), { recursive: true, mode: 0o700 });
  const secret = x509.PemConverter.encode(await crypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY');
  put(keyFile(bookFile, holder), secret, 0o600);
  put(certificateFile(bookFile, holder), certificate.toString('pem'), 0o644);
}

function put(file: string, text: string, mode: number): void {
  writeFileSync(`${file}.new`, `${text}\n`, { mode });
  renameSync(`${file}.new`, file);
}

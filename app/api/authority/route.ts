import { readFileSync } from 'node:fs';
import { theBook } from '#app/request/book.ts';
import { fileResponse, notFoundProblem } from '#app/server/responses.ts';
import { certificateFile, certificateOf } from '#db/certificate/names.ts';

/** The certificate of our authority, for a phone to take; it holds no secret. The office shows its SHA-256. */
export async function GET(): Promise<Response> {
  const { file } = await theBook();
  if (!certificateOf(file, 'authority')) return notFoundProblem('No certificate was made yet: ask the office.');
  const headers = { name: 'peltry-authority.crt', type: 'application/x-x509-ca-cert', inline: true };
  return fileResponse(readFileSync(certificateFile(file, 'authority')), headers);
}

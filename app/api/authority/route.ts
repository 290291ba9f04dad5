import { readFileSync } from 'node:fs';
import { theBook } from '#app/request/book.ts';
import { problem } from '#app/server/problem.ts';
import { certificateFile, certificateOf } from '#db/certificate/files.ts';
import { refuse } from '#lib/result/result.ts';

/** The certificate of our authority, for a phone to take; it holds no secret. The office shows its SHA-256. */
export async function GET(): Promise<Response> {
  const { file } = await theBook();
  if (!certificateOf(file, 'authority')) {
    return problem(refuse('unknown', 'No certificate was made yet: ask the office.'), 404);
  }
  return new Response(readFileSync(certificateFile(file, 'authority')), {
    headers: {
      'content-type': 'application/x-x509-ca-cert',
      'content-disposition': 'inline; filename="peltry-authority.crt"',
      'cache-control': 'no-store',
    },
  });
}

import 'server-only';
import { Unbroken } from '#app/ui/unbroken.tsx';
import { certificateOf } from '#db/certificate/fingerprint.ts';
import type { Book } from '#db/open.ts';
import { dayIn } from '#db/queries/local-days.ts';

/** What a phone is to compare before it takes our authority, and how long the server's own certificate is good. */
export function Certificate({ book }: { readonly book: Book }) {
  const authority = certificateOf(book.file, 'authority');
  const server = certificateOf(book.file, 'server');
  return (
    <section className="sheet" aria-labelledby="certificate">
      <h2 id="certificate">Encrypted line</h2>
      {authority && server ? (
        <>
          <p>Certificate of this machine: good until {dayIn(book, new Date(server.validTo).toISOString())}.</p>
          <p>
            <a href="/api/authority">The authority’s certificate</a>, which a phone takes once. Compare its SHA-256:
          </p>
          <p className="path">{authority.fingerprint256.replaceAll(':', ' ')}</p>
        </>
      ) : (
        <>
          <p>There is no certificate yet. Make it on the machine itself, then start the server anew:</p>
          <code className="command">
            <Unbroken>{`npm run --silent book -- certificate --book ${book.file}`}</Unbroken>
          </code>
        </>
      )}
    </section>
  );
}

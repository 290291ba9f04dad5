import 'server-only';
import type { Metadata } from 'next';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { ColumnHeads, Unbroken } from '#app/ui/text.tsx';
import type { Book } from '#db/book/open.ts';
import { certificateOf, ownHosts } from '#db/certificate/names.ts';
import { dayIn, momentIn } from '#db/sale/queries.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { NetworkForm } from './network-form.tsx';
import { WhoConnects } from './who-connects.tsx';

export const metadata: Metadata = { title: 'Network' };

export default officePage({ here: '/office/network' }, ({ book }) => {
  const said = networkSaid(book);
  return (
    <>
      <Addresses hosts={said.hosts} />
      <Certificate book={book} />
      <WhoConnects />
      <NetworkForm key={said.at} said={said} when={said.at === '' ? '' : momentIn(book, said.at)} />
    </>
  );
});

/** Where the hall and the staff reach this machine, to be read out or written on the wall. */
function Addresses({ hosts }: { readonly hosts: readonly string[] }) {
  const { PELTRY_PORT: port, PELTRY_SECURE_PORT: securePort, PELTRY_HALL: hall } = process.env;
  const all = [...new Set([...ownHosts(), ...hosts])];
  return (
    <section className="sheet">
      <h1>Network</h1>
      {hall === 'yes' ? (
        <table className="log-lines">
          <caption>Addresses of this machine</caption>
          <ColumnHeads words={['For the hall', 'For the staff']} />
          <tbody>
            {all.map((host) => (
              <tr key={host}>
                <td className="path">{`http://${host}:${port}/board`}</td>
                <td className="path">{securePort ? `https://${host}:${securePort}` : 'no encrypted line yet'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        <p>This server listens on the machine itself only. Start it with --hall to open it to the network.</p>
      )}
    </section>
  );
}

/** What a phone is to compare before it takes our authority, and how long the server's own certificate is good. */
function Certificate({ book }: { readonly book: Book }) {
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

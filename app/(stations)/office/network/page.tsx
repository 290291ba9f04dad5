import 'server-only';
import type { Metadata } from 'next';
import { AskButton } from '#app/(stations)/office/doors/ask-button.tsx';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { addressChange } from '#app/server/address-change.ts';
import { turnedAway } from '#app/server/guard/turned-away.ts';
import { hallAddresses, isHallOpen } from '#app/server/hall.ts';
import { Notice } from '#app/ui/notice.tsx';
import { Qr } from '#app/ui/qr.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { Book } from '#db/book/open.ts';
import { uncovered } from '#db/certificate/keep.ts';
import { certificateOf, wordsOf } from '#db/certificate/names.ts';
import { dayIn, momentIn } from '#db/sale/queries.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { certificateAmiss } from '#lib/network/certificate.ts';
import { NetworkForm } from './network-form.tsx';
import { WhoConnects } from './who-connects.tsx';

export const metadata: Metadata = { title: 'Network' };

export default officePage({ here: '/office/network' }, ({ book }) => {
  const said = networkSaid(book);
  return (
    <>
      <Addresses book={book} />
      <Certificate book={book} />
      <TurnedAway book={book} />
      <WhoConnects />
      <NetworkForm key={said.at} said={said} when={said.at === '' ? '' : momentIn(book, said.at)} />
    </>
  );
});

/** Where the hall and the staff reach this machine, to be read out, photographed or written on the wall. */
function Addresses({ book }: { readonly book: Book }) {
  const [best, ...others] = hallAddresses(book);
  if (!isHallOpen() || !best) {
    return (
      <section className="sheet">
        <h1>Network</h1>
        <p>
          This server listens on the machine itself only. Opening the hall makes the certificate where there is none,
          and lets the devices of this network in.
        </p>
        <p className="acts">
          <AskButton words="Open the hall" path="/api/office/hall" body={{ open: true }} />
        </p>
      </section>
    );
  }
  const changed = addressChange(book.file, Date.now());
  return (
    <section className="sheet">
      <h1>Network</h1>
      {changed && (
        <Notice kind="wait" title={`Since ${momentIn(book, new Date(changed.at).toISOString())}: ${changed.office}`} />
      )}
      <p>Everybody joins at</p>
      <p className="lead path">{`${best.open}/join`}</p>
      <Qr text={`${best.open}/join`} />
      <p className="acts">
        <a className="button" href="/api/papers/join-card">
          Print the card for the wall
        </a>
        <a href="/join">The page of the card</a>
      </p>
      <ScrollRegion className="scroll-x" label="Addresses">
        <table className="log-lines">
          <caption>Addresses of this machine now</caption>
          <ColumnHeads words={['For the hall', 'For the staff']} />
          <tbody>
            {[best, ...others].map(({ host, open, secure }) => (
              <tr key={host}>
                <td className="path">{`${open}/board`}</td>
                <td className="path">{secure || 'no encrypted line yet'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollRegion>
    </section>
  );
}

/** What a phone is to compare before it takes our authority, and how long the server's own certificate is good. */
function Certificate({ book }: { readonly book: Book }) {
  const authority = certificateOf(book.file, 'authority');
  const server = certificateOf(book.file, 'server');
  if (!authority || !server) return null;
  const missing = uncovered(book).map(({ value }) => value);
  const [validFrom, validTo] = [Date.parse(server.validFrom), Date.parse(server.validTo)];
  const amiss = certificateAmiss({ host: '', covers: true, validFrom, validTo }, Date.now());
  return (
    <section className="sheet" aria-labelledby="certificate">
      <h2 id="certificate">Encrypted line</h2>
      <p>
        Certificate of this machine: good until {dayIn(book, new Date(server.validTo).toISOString())}. While the hall is
        open it is looked at every minute and made anew by itself.
      </p>
      {amiss && <Notice kind="stop" title={amiss.office} />}
      {missing.length > 0 && (
        <Notice kind="wait" title={`The certificate is not for ${missing.join(', ')}.`}>
          <p>Browsers warn at these addresses: use another one.</p>
        </Notice>
      )}
      <p>
        <a href="/api/authority">The authority’s certificate</a>, which a device takes once. Its six words:
      </p>
      <p className="lead">{wordsOf(authority)}</p>
      <p>Its SHA-256, as a device itself shows it:</p>
      <p className="path">{authority.fingerprint256.replaceAll(':', ' ')}</p>
    </section>
  );
}

/** Devices that came by a wrong way, or whose clock is wrong: each with what to do. */
function TurnedAway({ book }: { readonly book: Book }) {
  const all = turnedAway();
  if (all.length === 0) return null;
  return (
    <section className="sheet" aria-labelledby="not-in">
      <h2 id="not-in">Devices in trouble, in the last hour</h2>
      <ul>
        {all.map(({ words, at }) => (
          <li key={words}>
            {momentIn(book, new Date(at).toISOString())}: {words}
          </li>
        ))}
      </ul>
    </section>
  );
}

import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { PublicFrame } from '#app/(hall)/hall-frame.tsx';
import { theBook } from '#app/request/book.ts';
import { type HallAddress, hallAddresses, hallWords, isHallOpen } from '#app/server/hall.ts';
import { Qr } from '#app/ui/qr.tsx';
import { certificateOf, coversHost, fingerprintOf } from '#db/certificate/names.ts';
import { theAssociation } from '#db/sale/queries.ts';
import { certificateAmiss } from '#lib/network/certificate.ts';
import { DEVICES, deviceOf, FIREFOX } from '#lib/network/devices.ts';
import { hostOf } from '#lib/network/hosts.ts';
import { ClockCheck, LineCheck } from './checks.tsx';

export const metadata: Metadata = { title: 'Join the hall' };

const WAYS = [
  { path: '/board', name: 'Board' },
  { path: '/prices', name: 'Prices' },
  { path: '/help/network', name: 'Help' },
] as const;

/** The card by which a device comes into the hall: where, the certificate, and whether it worked. On paper it is the notice for the wall. */
export default async function Page() {
  const book = await theBook();
  const asked = await headers();
  const all = hallAddresses(book);
  const here = all.find(({ host }) => host === hostOf(asked.get('host'))) ?? all[0];
  const words = hallWords(book.file);
  return (
    <PublicFrame
      name={theAssociation(book)?.name ?? 'Your association'}
      words="Join the hall"
      skip="Go to the page"
      label="Public pages"
      ways={WAYS}
    >
      <Where here={here} others={all.filter((one) => one !== here)} />
      {words !== '' && (
        <Take words={words} fingerprint={fingerprintOf(book.file) ?? ''} agent={asked.get('user-agent') ?? ''} />
      )}
      <section className="sheet">
        <h2>3. Try it</h2>
        <ClockCheck />
        <LineCheck secure={here?.secure ?? ''} {...factsOf(book.file, here?.host ?? '')} />
        <p>Then sign in with the one-time code that the office gives you, and choose your station.</p>
      </section>
    </PublicFrame>
  );
}

/** What the laptop knows of its own certificate, for a device that does not get in. */
function factsOf(bookFile: string, host: string): { amiss: string; good: readonly [number, number] } {
  const server = certificateOf(bookFile, 'server');
  if (!server) return { amiss: '', good: [0, 0] };
  const good = [Date.parse(server.validFrom), Date.parse(server.validTo)] as const;
  const facts = { host, covers: coversHost(server, host), validFrom: good[0], validTo: good[1] };
  return { amiss: certificateAmiss(facts, Date.now())?.device ?? '', good };
}

interface WhereProps {
  readonly here: HallAddress | undefined;
  readonly others: readonly HallAddress[];
}

function Where({ here, others }: WhereProps) {
  return (
    <section className="sheet">
      <h1>Join the hall</h1>
      {here && isHallOpen() ? (
        <>
          <h2>1. Where</h2>
          <p className="lead path">{`${here.open}/join`}</p>
          <Qr text={`${here.open}/join`} />
          <p>
            Everybody: <a href={`${here.open}/board`}>{`${here.open}/board`}</a>
          </p>
          {here.secure && <p>Staff, once this device is ready: {here.secure}</p>}
          {others.length > 0 && <p>The same machine is also {others.map(({ host }) => host).join(', ')}.</p>}
        </>
      ) : (
        <p>The hall is not open yet: the office opens it at Office, Network.</p>
      )}
    </section>
  );
}

interface TakeProps {
  readonly words: string;
  readonly fingerprint: string;
  readonly agent: string;
}

/** Only staff need it: for the Board and the prices nothing is to be taken. */
function Take({ words, fingerprint, agent }: TakeProps) {
  const own = deviceOf(agent);
  return (
    <section className="sheet">
      <h2>2. Staff: let this device trust the laptop</h2>
      <p>Once for each device. For the Board and the prices nothing is needed.</p>
      <p>Read these six words to somebody at the office. They must be the same there:</p>
      <p className="lead">{words}</p>
      <p className="acts">
        <a className="button" href="/api/authority" download="peltry-authority.crt">
          Download the certificate
        </a>
      </p>
      {DEVICES.map(({ name, steps }) => (
        <details key={name} open={name === own}>
          <summary>{name}</summary>
          <ol>
            {steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </details>
      ))}
      <p>Firefox on a computer: {FIREFOX}</p>
      <details>
        <summary>To be safe from a page that somebody changed on its way</summary>
        <p>
          The words above come with this page. If you do not trust the network, bring the file by cable or stick, or
          compare the SHA-256 that the device itself shows of the certificate with this one at Office, Network:
        </p>
        <p className="path">{fingerprint.replaceAll(':', ' ')}</p>
      </details>
    </section>
  );
}

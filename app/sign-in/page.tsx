import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import type { ReactNode } from 'react';
import { ClockCheck } from '#app/(hall)/join/checks.tsx';
import { theBook } from '#app/request/book.ts';
import { signedIn } from '#app/request/caller.ts';
import type { SearchParams } from '#app/request/page-context.ts';
import { connectionOf, refuseConnection } from '#app/server/connection.ts';
import { signInsOf } from '#app/server/session.ts';
import { Notice } from '#app/ui/notice.tsx';
import { OpenLineMark, SecureLink } from '#app/ui/secure-link.tsx';
import { theAssociation } from '#db/sale/queries.ts';
import { lacksPassphrases } from '#db/sign-in/passphrases.ts';
import { hasWorkers } from '#db/worker/queries.ts';
import { SignInForm } from './sign-in-form.tsx';

export const metadata: Metadata = { title: 'Sign in' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const book = await theBook();
  const asked = await headers();
  const shut = refuseConnection(book, asked);
  // A passphrase would travel in the open.
  if (shut) {
    const title = 'Sign in on the encrypted line';
    return (
      <NoForm title={title} guide="/help/network" about="The hall's network, and the certificate on a phone">
        {shut.code === 'open_line' ? <SecureLink path="/sign-in" /> : <p>{shut.message}</p>}
      </NoForm>
    );
  }
  if (!hasWorkers(book)) {
    if (connectionOf(asked).fromMachine) redirect('/office/workers');
    // A stranger in the hall, with a phone, must not be the first.
    return (
      <NoForm title="Nobody is entered yet" guide="/help/workers" about="How workers are entered">
        <p>The first worker is entered on the machine itself. After that, sign in here.</p>
      </NoForm>
    );
  }
  const worker = await signedIn();
  const { why } = await searchParams;
  return (
    <main id="main" className="page page-narrow">
      <OpenLineMark />
      <p className="lead">{theAssociation(book)?.name ?? 'Your association'}</p>
      {worker && why === 'station' && (
        <Notice kind="stop" title={`${worker.name} does not work at that station.`}>
          <p>Your stations: {worker.stations.join(', ')}. Ask the office, or sign in as somebody else.</p>
        </Notice>
      )}
      {lacksPassphrases({ book, store: signInsOf(book) }) && (
        <Notice kind="plain" title="No passphrase came with this book: the first of the office signs in with a code.">
          <p>
            It is made at the machine itself. <a href="/help/workers">How to sign in</a>
          </p>
        </Notice>
      )}
      <ClockCheck quiet />
      <SignInForm />
      {/* For whoever stands before the door: guides and prices are open to everybody. */}
      <nav className="acts" aria-label="Open to everybody">
        <a href="/help/workers">How to sign in</a>
        <a href="/help">All guides</a>
        <a href="/prices">Prices</a>
        <a href="/board">Board</a>
      </nav>
    </main>
  );
}

interface NoFormProps {
  readonly title: string;
  /** A guide that says more. */
  readonly guide: string;
  readonly about: string;
  readonly children: ReactNode;
}

/** In the place of the form: why nobody signs in here. */
function NoForm({ title, guide, about, children }: NoFormProps) {
  return (
    <main id="main" className="page">
      <section className="sheet">
        <h1>{title}</h1>
        {children}
        <p className="acts">
          <a href={guide}>{about}</a>
        </p>
      </section>
    </main>
  );
}

import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { theBook } from '#app/request/book.ts';
import { signedIn } from '#app/request/caller.ts';
import type { SearchParams } from '#app/request/page-context.ts';
import { connectionOf, refuseConnection } from '#app/server/connection.ts';
import { Notice } from '#app/ui/notice.tsx';
import { OpenLineMark, SecureLink } from '#app/ui/secure-link.tsx';
import { theAssociation } from '#db/sale/queries.ts';
import { hasWorkers } from '#db/worker/queries.ts';
import { hostOf } from '#lib/network/hosts.ts';
import type { Refusal } from '#lib/result/result.ts';
import { SignInForm } from './sign-in-form.tsx';

export const metadata: Metadata = { title: 'Sign in' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const book = await theBook();
  const asked = await headers();
  const shut = refuseConnection(book, asked);
  if (shut) return <SecureAddress refusal={shut} host={hostOf(asked.get('host'))} />;
  if (!hasWorkers(book)) {
    if (!connectionOf(asked).fromMachine) return <NobodyYet />;
    redirect('/office/workers');
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

/** What a phone is told before the first worker is entered: a stranger in the hall must not be the first. */
function NobodyYet() {
  return (
    <main id="main" className="page">
      <section className="sheet">
        <h1>Nobody is entered yet</h1>
        <p>The first worker is entered on the machine itself. After that, sign in here.</p>
        <p className="acts">
          <a href="/help/workers">How workers are entered</a>
        </p>
      </section>
    </main>
  );
}

/** In the place of the form, where a passphrase would travel in the open. */
function SecureAddress({ refusal, host }: { readonly refusal: Refusal; readonly host: string | undefined }) {
  return (
    <main id="main" className="page">
      <section className="sheet">
        <h1>Sign in on the encrypted line</h1>
        {refusal.code === 'open_line' ? <SecureLink host={host} path="/sign-in" /> : <p>{refusal.message}</p>}
        <p className="acts">
          <a href="/help/network">The hall's network, and the certificate on a phone</a>
        </p>
      </section>
    </main>
  );
}

import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { theBook } from '#app/book.ts';
import { signedIn } from '#app/caller.ts';
import { lineOf, shutLine } from '#app/line.ts';
import type { Address } from '#app/station.ts';
import { Notice } from '#app/ui/notice.tsx';
import { OpenLineMark } from '#app/ui/open-line-mark.tsx';
import { theAssociation } from '#db/queries/sales.ts';
import { hasWorkers } from '#db/queries/workers.ts';
import { hostOf } from '#lib/host-name.ts';
import { NobodyYet } from './nobody-yet.tsx';
import { SecureAddress } from './secure-address.tsx';
import { SignInForm } from './sign-in-form.tsx';
import { SignInGuides } from './sign-in-guides.tsx';

export const metadata: Metadata = { title: 'Sign in' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const book = await theBook();
  const asked = await headers();
  const shut = shutLine(book, asked);
  if (shut) return <SecureAddress refusal={shut} host={hostOf(asked.get('host'))} />;
  if (!hasWorkers(book)) {
    if (!lineOf(asked).fromMachine) return <NobodyYet />;
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
      <SignInGuides />
    </main>
  );
}

import type { Metadata } from 'next';
import { redirect } from 'next/navigation';
import { theBook } from '#app/book.ts';
import { signedIn } from '#app/caller.ts';
import type { Address } from '#app/station.ts';
import { Notice } from '#app/ui/notice.tsx';
import { theAssociation } from '#db/queries/sales.ts';
import { hasWorkers } from '#db/queries/workers.ts';
import { SignInForm } from './sign-in-form.tsx';

export const metadata: Metadata = { title: 'Sign in' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const book = await theBook();
  if (!hasWorkers(book)) redirect('/office/workers');
  const worker = await signedIn();
  const { why } = await searchParams;
  return (
    <main id="main" className="page">
      <p>{theAssociation(book)?.name ?? 'Your association'}</p>
      {worker && why === 'station' && (
        <Notice kind="stop" title={`${worker.name} does not work at that station.`}>
          <p>Your stations: {worker.stations.join(', ')}. Ask the office, or sign in as somebody else.</p>
        </Notice>
      )}
      <SignInForm />
    </main>
  );
}

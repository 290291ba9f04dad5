import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { theBook } from '#app/book.ts';
import { shutLine } from '#app/line.ts';
import { ownPerson } from '#app/own.ts';
import type { Address } from '#app/station.ts';
import { SecureLink } from '#app/ui/secure-link.tsx';
import { ownGoods } from '#db/queries/own-goods.ts';
import { theAssociation } from '#db/queries/sales.ts';
import { hostOf } from '#lib/host-name.ts';
import { HallMasthead } from '../../hall-masthead.tsx';
import { wordOf } from '../ground.ts';
import { CodeForm } from './code-form.tsx';
import { OwnNumbers } from './own-numbers.tsx';
import '../prices.css';

export const metadata: Metadata = { title: 'Your own goods', robots: 'noindex' };

/** A member's own goods over the years, for whoever came in with their code; the form for it otherwise. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const wrong = wordOf(await searchParams, 'wrong') !== '';
  const book = await theBook();
  const asked = await headers();
  const shut = shutLine(book, asked) !== undefined;
  const host = hostOf(asked.get('host'));
  const personId = await ownPerson();
  const own = personId === undefined ? null : ownGoods(book, personId);
  return (
    <>
      <HallMasthead association={theAssociation(book)?.name ?? 'The association'} here="/prices/own" />
      <main id="main" className="page prices">
        <h1>Your own goods</h1>
        {shut ? (
          <SecureLink host={host} path="/prices/own" />
        ) : own ? (
          <OwnNumbers own={own} />
        ) : (
          <CodeForm wrong={wrong} />
        )}
      </main>
    </>
  );
}

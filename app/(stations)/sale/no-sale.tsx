import Link from 'next/link';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';

/** A page about a sale in a book that has none: where one is planned. */
export function NoSale({ association }: { readonly association: string }) {
  return (
    <>
      <Masthead association={association} here="/" />
      <main id="main" className="page">
        <h1>No sale yet</h1>
        <Notice kind="plain" title="There is no sale in this book.">
          <p>
            <Link href="/">Plan the first one</Link>.
          </p>
        </Notice>
      </main>
    </>
  );
}

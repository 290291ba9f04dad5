import type { Metadata } from 'next';
import Link from 'next/link';
import { Ahead } from '#app/backups/ahead.tsx';
import { backupsAhead } from '#app/backups/view.ts';
import { type Address, stationContext } from '#app/request/page-context.ts';
import { OFFICE_PAGES, OfficeFrame } from './office-frame.tsx';

export const metadata: Metadata = { title: 'Office' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationContext(searchParams, ['office']);
  return (
    <OfficeFrame association={association} sale={sale}>
      <section className="sheet">
        <h1>Office</h1>
        <Ahead ahead={backupsAhead(book)} />
        <dl className="office-pages">
          {OFFICE_PAGES.map(({ path, name, says }) => (
            <div key={path}>
              <dt>
                <Link href={path}>{name}</Link>
              </dt>
              <dd>{says}</dd>
            </div>
          ))}
        </dl>
      </section>
    </OfficeFrame>
  );
}

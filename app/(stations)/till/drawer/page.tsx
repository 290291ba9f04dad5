import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { drawerView } from '#db/queries/drawer-view.ts';
import '../till.css';
import { Counts } from './counts.tsx';
import { DrawerEntries } from './drawer-entries.tsx';
import { DrawerForm } from './drawer-form.tsx';

export const metadata: Metadata = { title: 'Drawer' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['till']);
  if (!sale) notFound();
  const view = drawerView(book, sale);
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <Live />
      <main id="main" className="page">
        <nav aria-label="Till" className="buyer-ways no-print">
          <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
          <Link href={`/till/drawer?sale=${sale.id}`} aria-current="page">
            The drawer
          </Link>
        </nav>
        <div className="table-top">
          <section className="sheet">
            <h1>The drawer</h1>
            {sale.stage === 'closed' ? (
              <p>The sale is closed, and so is its drawer.</p>
            ) : (
              <DrawerForm saleId={sale.id} open={view.open} denominations={view.denominations} />
            )}
          </section>
          <Counts view={view} />
          <section className="below">
            <h2>What was done</h2>
            <DrawerEntries entries={view.entries} />
          </section>
        </div>
      </main>
    </>
  );
}

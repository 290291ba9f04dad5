import type { Metadata } from 'next';
import { Ahead } from '#app/backups/ahead.tsx';
import { backupsView } from '#app/backups/view.ts';
import { type Address, stationGround } from '#app/station.ts';
import { Notice } from '#app/ui/notice.tsx';
import { timeZoneOf } from '#db/queries/local-days.ts';
import { ActButton } from '../act-button.tsx';
import { OfficeFrame } from '../office-frame.tsx';
import { CopyTable } from './copy-table.tsx';

export const metadata: Metadata = { title: 'Backups' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['office']);
  const { folders, rule } = backupsView(book);
  return (
    <OfficeFrame association={association} sale={sale} here="/office/backups" live>
      <section className="sheet">
        <h1>Backups</h1>
        <p>{rule}</p>
        <ActButton act="backup" says="Copying the book and reading the copy back: the stations go on.">
          Back up now
        </ActButton>
        {folders.map(({ folder, title, standing, warning, ahead, copies, more }) => (
          <section key={folder} aria-label={title}>
            <h2>{title}</h2>
            <p className="path">{folder}</p>
            <Ahead ahead={ahead} />
            {warning ? <Notice kind="stop" title={warning} /> : <p>{standing}</p>}
            <CopyTable copies={copies} more={more} timeZone={timeZoneOf(book)} />
          </section>
        ))}
      </section>
    </OfficeFrame>
  );
}

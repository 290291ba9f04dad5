import type { Metadata } from 'next';
import type { ReactNode } from 'react';
import { DeviceTable } from '#app/(stations)/office/doors/device-table.tsx';
import { OfficeFrame } from '#app/(stations)/office/office-frame.tsx';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { callerAt } from '#app/request/caller.ts';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { signInsOf } from '#app/server/session.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { devicesOf } from '#db/sign-in/sessions.ts';
import { allWorkers } from '#db/worker/queries.ts';
import { OwnAccount } from './own-account.tsx';
import { NewWorker, OneWorker } from './worker-forms.tsx';

export const metadata: Metadata = { title: 'Workers' };

/** Everybody sees themselves here; the office sees all, and enters the first worker while there is none. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams);
  const caller = await callerAt();
  const isOffice = caller.ok && caller.value.stations.includes('office');
  const workers = allWorkers(book);
  const devices = devicesOf({ book, store: signInsOf(book) }, Date.now());
  const devicesFor = (id: number) => devices.filter(({ workerId }) => workerId === id);
  const timeZone = timeZoneOf(book);
  const own = workers.find(({ id }) => caller.ok && caller.value.id === id);
  const frame = (children: ReactNode) =>
    isOffice ? (
      <OfficeFrame association={association} sale={sale} here="/office/workers">
        {children}
      </OfficeFrame>
    ) : (
      <StationPage {...{ association, sale }} here="/office" guide="workers">
        {children}
      </StationPage>
    );
  return frame(
    <>
      {own && (
        <OwnAccount worker={own}>
          <DeviceTable devices={devicesFor(own.id)} {...{ timeZone }} />
        </OwnAccount>
      )}
      {isOffice && (
        <>
          <section className="sheet" aria-label="Workers">
            {own ? <h2>Workers</h2> : <h1>Nobody is entered yet</h1>}
            {workers.length === 0 && (
              <p>Whoever reaches this machine may do everything until the first worker is entered.</p>
            )}
            {workers.map((worker) => (
              <OneWorker key={worker.id} worker={worker} devices={devicesFor(worker.id).length} />
            ))}
          </section>
          <NewWorker first={workers.length === 0} />
        </>
      )}
    </>,
  );
}

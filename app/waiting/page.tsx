import type { Metadata } from 'next';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { epochOf } from '#db/follow/epoch.ts';
import { WaitingList } from './waiting-list.tsx';

export const metadata: Metadata = { title: 'What waits in this browser' };

/** What was typed in this browser and is not in the book; whoever is signed in may copy it, and let go of what is not sent. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { association, book, sale } = await stationContext(searchParams);
  return (
    <StationPage {...{ association, sale }} here="/" guide="workers">
      <h1>What waits in this browser</h1>
      <WaitingList epoch={epochOf(book)} />
    </StationPage>
  );
}

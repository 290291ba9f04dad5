import type { Metadata } from 'next';
import { type Address, stationGround } from '#app/station.ts';
import { momentIn } from '#db/queries/local-days.ts';
import { networkSaid } from '#db/queries/network.ts';
import { OfficeFrame } from '../office-frame.tsx';
import { Addresses } from './addresses.tsx';
import { Certificate } from './certificate.tsx';
import { NetworkForm } from './network-form.tsx';

export const metadata: Metadata = { title: 'Network' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['office']);
  const said = networkSaid(book);
  return (
    <OfficeFrame association={association} sale={sale} here="/office/network">
      <Addresses hosts={said.hosts} />
      <Certificate book={book} />
      <NetworkForm key={said.at} said={said} when={said.at === '' ? '' : momentIn(book, said.at)} />
    </OfficeFrame>
  );
}

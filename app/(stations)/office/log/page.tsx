import type { Metadata } from 'next';
import Link from 'next/link';
import { type Address, stationGround } from '#app/station.ts';
import { timeZoneOf } from '#db/queries/local-days.ts';
import { logView } from '#db/queries/log-view.ts';
import { ActButton } from '../act-button.tsx';
import { OfficeFrame } from '../office-frame.tsx';
import { addressOf, askedOf } from './asked.ts';
import { LogForm } from './log-form.tsx';
import { LogTable } from './log-table.tsx';

export const metadata: Metadata = { title: 'Log' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale, word } = await stationGround(searchParams, ['office']);
  const asked = askedOf(word, sale?.id);
  const view = logView(book, asked);
  return (
    <OfficeFrame association={association} sale={sale} here="/office/log">
      <section className="sheet">
        <h1>Log</h1>
        <p>Every entry, in the order it was made. Nothing here can be changed; a correction is a further line.</p>
        <LogForm word={word} workers={view.workers} />
        <LogTable lines={view.lines} timeZone={timeZoneOf(book)} />
        <p className="acts">
          {word('before') && <Link href={`/office/log?${addressOf(word)}`}>Newest lines</Link>}
          {view.older !== null && <Link href={`/office/log?${addressOf(word, view.older)}`}>Older lines</Link>}
          <a href={`/api/office/log?${addressOf(word)}`} download>
            All of these as CSV
          </a>
        </p>
        <ActButton act="verify" says="Proving the book: this takes some seconds, and the stations go on.">
          Verify the log
        </ActButton>
      </section>
    </OfficeFrame>
  );
}

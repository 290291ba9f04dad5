import type { Metadata } from 'next';
import Link from 'next/link';
import { ActButton } from '#app/(stations)/office/act-button.tsx';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { noteLooks } from '#app/request/looks.ts';
import { Moment } from '#app/request/moment.tsx';
import type { Word } from '#app/request/page-context.ts';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Options } from '#app/ui/form.tsx';
import { ScrollRegion } from '#app/ui/text.tsx';
import { STATIONS } from '#db/book/command.ts';
import { type LogLineView, logView } from '#db/worker/log-view.ts';
import { logAddress, readQueryParams } from './query-params.ts';

export const metadata: Metadata = { title: 'Log' };

export default officePage({ here: '/office/log' }, async ({ book, sale, word }) => {
  const asked = readQueryParams(word, sale?.id);
  if (asked.personId !== undefined) await noteLooks(book, 'log', [asked.personId]);
  const view = logView(book, asked);
  return (
    <section className="sheet">
      <h1>Log</h1>
      <p>Every entry, in the order it was made. Nothing here can be changed; a correction is a further line.</p>
      <LogForm word={word} workers={view.workers} />
      <LogTable lines={view.lines} />
      <p className="acts">
        {word('before') && <Link href={`/office/log?${logAddress(word)}`}>Newest lines</Link>}
        {view.older !== null && <Link href={`/office/log?${logAddress(word, view.older)}`}>Older lines</Link>}
        <a href={`/api/office/log?${logAddress(word)}`} download>
          All of these as CSV
        </a>
      </p>
      <ActButton act="verify" says="Proving the book: this takes some seconds, and the stations go on.">
        Verify the log
      </ActButton>
    </section>
  );
});

/** A plain form that asks by address: what was asked can be kept as a bookmark. */
function LogForm({ word, workers }: { readonly word: Word; readonly workers: readonly string[] }) {
  return (
    <form className="log-form" method="get" action="/office/log">
      {word('sale') && <input type="hidden" name="sale" value={word('sale')} />}
      {word('person') && <input type="hidden" name="person" value={word('person')} />}
      <div className="fields">
        <TextField label="Lot" name="lot" defaultValue={word('lot') ?? ''} inputMode="numeric" />
        <ChoiceField label="Who" name="worker" defaultValue={word('worker') ?? ''}>
          <option value="">everybody</option>
          <Options of={workers.map((worker) => [worker, worker])} />
        </ChoiceField>
        <ChoiceField label="Station" name="station" defaultValue={word('station') ?? ''}>
          <option value="">all</option>
          <Options of={STATIONS.map((station) => [station, station])} />
        </ChoiceField>
        <TextField label="From the day" name="from" type="date" defaultValue={word('from') ?? ''} />
        <TextField label="To the day" name="to" type="date" defaultValue={word('to') ?? ''} />
        <TextField label="Before line" name="before" defaultValue={word('before') ?? ''} inputMode="numeric" />
      </div>
      <p className="acts">
        <button type="submit" className="act">
          Show these lines
        </button>
      </p>
    </form>
  );
}

const HEADS = ['Line', 'What', 'When', 'Who', 'Station'];
/** A head begins where its column begins. */
const FIGURES = ['Line', 'When'];

function LogTable({ lines }: { readonly lines: readonly LogLineView[] }) {
  if (lines.length === 0) return <p>No line fits what was asked.</p>;
  return (
    <ScrollRegion label="Lines of the log">
      <table className="log-lines slips log-slips">
        <thead>
          <tr>
            {HEADS.map((name) => (
              <th key={name} scope="col" className={FIGURES.includes(name) ? 'figure' : undefined}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ line, at, worker, station, words }) => (
            <tr key={line}>
              <th scope="row" className="figure">
                {line}
              </th>
              <td className="log-what">{words}</td>
              <td className="figure">
                <Moment at={at} dated />
              </td>
              <td className="log-who">{worker}</td>
              <td>{station}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

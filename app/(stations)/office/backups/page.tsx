import type { Metadata } from 'next';
import { ActButton } from '#app/(stations)/office/act-button.tsx';
import { OfficeFrame } from '#app/(stations)/office/office-frame.tsx';
import { Ahead } from '#app/backups/ahead.tsx';
import { backupsView, type CopyLine } from '#app/backups/view.ts';
import { type Address, stationGround } from '#app/request/page-context.ts';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads } from '#app/ui/text.tsx';
import { timeZoneOf } from '#db/sale/queries.ts';
import { localDay, localTime } from '#lib/date/local-day.ts';

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

interface CopyTableProps {
  readonly copies: readonly CopyLine[];
  readonly more: number;
  readonly timeZone: string;
}

/** The newest copies in a folder. */
function CopyTable({ copies, more, timeZone }: CopyTableProps) {
  if (copies.length === 0) return null;
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: A table that scrolls sideways must be reached by keyboard. */}
      <section className="scroll-x" aria-label="Newest backups" tabIndex={0}>
        <table className="log-lines">
          <ColumnHeads words={['When', 'To log line', 'SHA-256']} />
          <tbody>
            {copies.map(({ name, at, line, sha256 }) => (
              <tr key={name}>
                <th scope="row" className="figure">
                  <time dateTime={at}>
                    {localDay(at, timeZone)} {localTime(at, timeZone)}
                  </time>
                </th>
                <td className="figure">{line ?? 'not known'}</td>
                <td>{sha256 === null ? 'not known' : `${sha256.slice(0, 16)}…`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {more > 0 && <p>{more} older ones are kept beside these.</p>}
    </>
  );
}

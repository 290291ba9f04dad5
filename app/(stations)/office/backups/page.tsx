import type { Metadata } from 'next';
import { ActButton } from '#app/(stations)/office/act-button.tsx';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { Ahead, backupsView, type CopyLine } from '#app/backups/view.tsx';
import { Moment } from '#app/request/moment.tsx';
import { Mark } from '#app/ui/marks.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import { recoveryWords } from '#db/certificate/sealed.ts';
import { LockForm } from './lock-form.tsx';

export const metadata: Metadata = { title: 'Backups' };

export default officePage({ here: '/office/backups', live: true }, ({ book }) => {
  const { folders, rule, lock, locks } = backupsView(book);
  return (
    <section className="sheet">
      <h1>Backups</h1>
      <p>{rule}</p>
      <ActButton act="backup" says="Copying the book and reading the copy back: the stations go on.">
        Back up now
      </ActButton>
      <Words words={recoveryWords(book.file)} />
      {folders.map(({ folder, title, standing, warning, ahead, copies, more }) => (
        <section key={folder} aria-label={title}>
          <h2>{title}</h2>
          <p className="path">{folder}</p>
          <Ahead ahead={ahead} />
          {warning ? <Notice kind="stop" title={warning} /> : <p>{standing}</p>}
          <CopyTable copies={copies} more={more} />
        </section>
      ))}
      <h2>A passphrase for backups on a drive</h2>
      <p>{lock}</p>
      <LockForm locks={locks} />
    </section>
  );
});

/** What goes on paper today, because it is needed on the day when this page is gone. */
function Words({ words }: { readonly words: string }) {
  if (words === '') return null;
  return (
    <section aria-label="Recovery words">
      <h2>Recovery words</h2>
      <p>
        Write these six words on paper and keep it away from the drive. After a restore on another laptop they open the
        sealed authority beside the backup, so that no device has to join again:
      </p>
      <p className="lead">{words}</p>
    </section>
  );
}

interface CopyTableProps {
  readonly copies: readonly CopyLine[];
  readonly more: number;
}

/** The newest copies in a folder. */
function CopyTable({ copies, more }: CopyTableProps) {
  if (copies.length === 0) return null;
  return (
    <>
      <ScrollRegion className="scroll-x" label="Newest backups">
        <table className="log-lines">
          <ColumnHeads words={['When', 'To log line', 'Replayed', 'In the book', 'Locked', 'SHA-256']} />
          <tbody>
            {copies.map(({ name, at, line, sha256, proof, inBook, isLocked }) => (
              <tr key={name}>
                <th scope="row" className="figure">
                  <Moment at={at} dated />
                </th>
                <td className="figure">{line ?? 'not known'}</td>
                <td>
                  {proof === null ? (
                    'not yet'
                  ) : (
                    <Mark tone={proof.ok ? 'done' : 'stop'}>{proof.ok ? 'whole' : `not whole: ${proof.words}`}</Mark>
                  )}
                </td>
                <td>
                  {line === null ? (
                    'not known'
                  ) : (
                    <Mark tone={inBook ? 'done' : 'stop'}>{inBook ? 'all of it' : 'no: it has more'}</Mark>
                  )}
                </td>
                <td>{isLocked ? 'locked' : 'open'}</td>
                <td>{sha256 === null ? 'not known' : `${sha256.slice(0, 16)}…`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollRegion>
      {more > 0 && <p>{more} older ones are kept beside these.</p>}
    </>
  );
}

import type { CopyLine } from '#app/backups/view.ts';
import { ColumnHeads } from '#app/ui/column-heads.tsx';
import { localDay, localTime } from '#lib/local-day.ts';

interface CopyTableProps {
  readonly copies: readonly CopyLine[];
  readonly more: number;
  readonly timeZone: string;
}

/** The newest copies in a folder. */
export function CopyTable({ copies, more, timeZone }: CopyTableProps) {
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

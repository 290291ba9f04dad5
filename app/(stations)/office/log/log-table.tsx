import { dayOf, timeOf } from '#app/today.ts';
import { ColumnHeads } from '#app/ui/column-heads.tsx';
import type { LogLineView } from '#db/queries/log-view.ts';

export function LogTable({ lines }: { readonly lines: readonly LogLineView[] }) {
  if (lines.length === 0) return <p>No line fits what was asked.</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table that scrolls sideways must be reached by keyboard.
    <section className="scroll-x" aria-label="Lines of the log" tabIndex={0}>
      <table className="log-lines">
        <ColumnHeads words={['Line', 'What', 'When', 'Who', 'Station']} />
        <tbody>
          {lines.map(({ line, at, worker, station, words }) => (
            <tr key={line}>
              <th scope="row" className="figure">
                {line}
              </th>
              <td className="log-what">{words}</td>
              <td className="figure">
                <time dateTime={at}>
                  {dayOf(at)} {timeOf(at)}
                </time>
              </td>
              <td>{worker}</td>
              <td>{station}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

import type { LogLineView } from '#db/queries/log-view.ts';
import { localDay, localTime } from '#lib/local-day.ts';

/** A head begins where its column begins. */
const HEADS: readonly { readonly name: string; readonly figure?: boolean }[] = [
  { name: 'Line', figure: true },
  { name: 'What' },
  { name: 'When', figure: true },
  { name: 'Who' },
  { name: 'Station' },
];

interface LogTableProps {
  readonly lines: readonly LogLineView[];
  readonly timeZone: string;
}

export function LogTable({ lines, timeZone }: LogTableProps) {
  if (lines.length === 0) return <p>No line fits what was asked.</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table that scrolls sideways must be reached by keyboard.
    <section className="scroll-x slips-room" aria-label="Lines of the log" tabIndex={0}>
      <table className="log-lines slips log-slips">
        <thead>
          <tr>
            {HEADS.map(({ name, figure = false }) => (
              <th key={name} scope="col" className={figure ? 'figure' : undefined}>
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
                <time dateTime={at}>
                  {localDay(at, timeZone)} {localTime(at, timeZone)}
                </time>
              </td>
              <td className="log-who">{worker}</td>
              <td>{station}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

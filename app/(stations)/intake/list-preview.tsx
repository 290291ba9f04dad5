import { Mark } from '#app/ui/marks.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { LotListView } from '#db/lot/list.ts';

/** The rows as they were read, each problem in its cell and once more in a list above, so that none is overlooked. */
export function ListPreview({ view, keepNumbers }: { readonly view: LotListView; readonly keepNumbers: boolean }) {
  const { columns, rows, problems, refused, lots, onHold, holds, asks } = view;
  const problemsAt = (line: number, column: string | null) =>
    problems.filter((one) => one.line === line && one.column === column);
  const holdsAt = (line: number, column: string) => holds.filter((one) => one.line === line && one.column === column);
  const ownNumbers = !keepNumbers && rows.some(({ cells }) => (cells.lot_no ?? '') !== '');
  return (
    <>
      {refused && <Notice kind="stop" title={refused} />}
      {problems.length > 0 && (
        <Notice kind="stop" title={`${countOf(problems.length)} to put right; nothing was taken in.`}>
          <ul>
            {problems.map(({ line, column, message }) => (
              <li key={`${line} ${column} ${message}`}>
                Line {line}
                {column && `, ${column}`}: {message}
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {lots.length > 0 && (
        <Notice
          kind="plain"
          title={lots.length === 1 ? 'The lot can be taken in.' : `All ${lots.length} lots can be taken in.`}
        >
          {ownNumbers && <p>The list’s own lot numbers are left out: each lot takes the next free one.</p>}
          {onHold.length > 0 && <p>{onHold.length} of them will be on hold until their export tags are right.</p>}
          <Said of={holds} />
        </Notice>
      )}
      {lots.length > 0 && asks.length > 0 && (
        <Notice kind="wait" title="Check the year on these tags, then take the list in or change it.">
          <Said of={asks} />
        </Notice>
      )}
      {rows.length > 0 && (
        <ScrollRegion className="scroll-x" label="The rows as they were read">
          <table className="list-preview">
            <caption>The rows as they were read</caption>
            <ColumnHeads words={['Line', ...columns]} />
            <tbody>
              {rows.map(({ line, cells }) => (
                <tr key={line}>
                  <th scope="row">
                    {line}
                    <Wrong problems={problemsAt(line, null)} />
                  </th>
                  {columns.map((column) => (
                    <td key={column} data-wrong={problemsAt(line, column).length > 0 ? '' : undefined}>
                      {cells[column]}
                      <Wrong problems={problemsAt(line, column)} />
                      {holdsAt(line, column).length > 0 && (
                        <p className="small">
                          <Mark tone="stop">on hold</Mark>
                        </p>
                      )}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollRegion>
      )}
    </>
  );
}

/** Nothing that has to be put right before the list is taken in: so each is said. */
function Said({ of: sentences }: { readonly of: LotListView['holds'] }) {
  if (sentences.length === 0) return null;
  return (
    <ul>
      {sentences.map(({ line, message }) => (
        <li key={`${line} ${message}`}>
          Line {line}: {message}
        </li>
      ))}
    </ul>
  );
}

function Wrong({ problems }: { readonly problems: LotListView['problems'] }) {
  return problems.map(({ message }) => (
    <p key={message} className="field-error">
      {message}
    </p>
  ));
}

function countOf(problems: number): string {
  return problems === 1 ? 'One thing' : `${problems} things`;
}

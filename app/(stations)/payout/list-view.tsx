import type { ColumnKind, ListPaper, ListTable } from '#lib/paper/list.ts';

const RIGHT: readonly ColumnKind[] = ['money', 'price', 'number'];

/** A list on the screen: the same finished words as the paper, and no sum of its own. */
export function ListView({ list }: { readonly list: ListPaper }) {
  return (
    <>
      {list.opening.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {list.tables.map((table) => (
        <TableView key={table.title} table={table} />
      ))}
      {[...list.remarks, list.caution].filter(Boolean).map((sentence) => (
        <p key={sentence} className="small">
          {sentence}
        </p>
      ))}
    </>
  );
}

function TableView({ table }: { readonly table: ListTable }) {
  // What is written in by hand has no place on a screen.
  const shown = table.columns.map(({ kind }, at) => ({ kind, at })).filter(({ kind }) => kind !== 'blank');
  if (table.rows.length === 0) return table.none === '' ? null : <p>{table.none}</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x list-view" aria-label={table.title || 'List'} tabIndex={0}>
      <table>
        {table.title && <caption>{table.title}</caption>}
        <thead>
          <tr>
            {shown.map(({ kind, at }) => (
              <Heading key={at} kind={kind} words={table.columns[at]?.words ?? ''} />
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row) => (
            <tr key={row.map(({ words }) => words).join('|')}>
              {shown.map(({ kind, at }) => (
                <td key={at} className={RIGHT.includes(kind) ? 'money' : undefined}>
                  {row[at]?.words}
                  {row[at]?.fine.map((line) => (
                    <div key={line} className="small soft">
                      {line}
                    </div>
                  ))}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
        {table.sum && (
          <tfoot>
            <tr>
              <td colSpan={shown.length}>{table.sum}</td>
            </tr>
          </tfoot>
        )}
      </table>
    </section>
  );
}

/** A column without a heading has an empty cell there, and no heading that says nothing. */
function Heading({ kind, words }: { readonly kind: ColumnKind; readonly words: string }) {
  if (words === '') return <td />;
  return (
    <th scope="col" className={RIGHT.includes(kind) ? 'money' : undefined}>
      {words}
    </th>
  );
}

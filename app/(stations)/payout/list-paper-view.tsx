import { Phrases, ScrollRegion } from '#app/ui/text.tsx';
import type { ColumnKind, ListCell, ListPaper, ListTable } from '#lib/paper/list.ts';

const RIGHT: readonly ColumnKind[] = ['money', 'price', 'number'];
const NAMES: readonly ColumnKind[] = ['goods', 'words'];
/** A table of so many columns fits on a phone as it is. */
const FEW = 3;
/** More tables than these are parts of one list. */
const MANY = 2;

/** A list on the screen: the same finished words as the paper, and no sum of its own. */
export function ListPaperView({ list }: { readonly list: ListPaper }) {
  return (
    <>
      {list.result && (
        <>
          <p>{list.result.label}</p>
          <p className="figure-large">{list.result.words}</p>
        </>
      )}
      {list.opening.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {list.tables.map((table) => (
        <TableView key={table.title} table={table} even={list.tables.length > MANY} />
      ))}
      {[...list.remarks, list.caution].filter(Boolean).map((sentence) => (
        <p key={sentence} className="small">
          {sentence}
        </p>
      ))}
    </>
  );
}

interface Shown {
  readonly at: number;
  readonly kind: ColumnKind;
  readonly head: string;
  /** Where it stands on a slip: `slip-name` and `slip-sum` make its first line. */
  readonly place: '' | 'slip-name' | 'slip-sum';
}

/** The columns of a screen: what is written in by hand has no place there. */
function shownOf({ columns }: ListTable): Shown[] {
  const shown = columns
    .map(({ kind, words }, at) => ({ kind, head: words, at }))
    .filter(({ kind }) => kind !== 'blank');
  const name = shown.find(({ kind }) => NAMES.includes(kind));
  const last = shown.at(-1);
  return shown.map((one) => ({
    ...one,
    place: one === name ? 'slip-name' : one === last && one.kind === 'money' ? 'slip-sum' : '',
  }));
}

/** With `even`, its columns stand under those of the tables above it. */
function TableView({ table, even }: { readonly table: ListTable; readonly even: boolean }) {
  const shown = shownOf(table);
  const money = shown.filter(({ kind }) => kind === 'money').length;
  if (table.rows.length === 0) return table.none === '' ? null : <p>{table.none}</p>;
  const classes = even ? 'scroll-x slips-room list-view even' : 'scroll-x slips-room list-view';
  return (
    <ScrollRegion className={classes} label={table.title || 'List'}>
      <table className={shown.length > FEW ? 'slips summed' : 'reckoning'}>
        {table.title && (
          <caption>
            <Phrases of={table.title.split(', ')} />
          </caption>
        )}
        <thead>
          <tr>
            {shown.map(({ kind, at, head }) => (
              <Heading key={at} kind={kind} words={head} />
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, line) => (
            <tr key={row.map(({ words }) => words).join('|')}>
              {shown.map((one, at) => (
                <Cell
                  key={one.at}
                  {...{ shown: one, cell: row[one.at], first: at === 0, money }}
                  below={one.place === 'slip-name' ? (table.below?.[line] ?? []) : []}
                />
              ))}
            </tr>
          ))}
        </tbody>
        {table.sum && (
          <tfoot>
            <tr>
              <th scope="row" colSpan={table.sumAmount ? shown.length - 1 : shown.length} className="slip-name">
                {table.sum}
              </th>
              {table.sumAmount && <td className="money slip-sum">{table.sumAmount}</td>}
            </tr>
          </tfoot>
        )}
      </table>
    </ScrollRegion>
  );
}

interface CellProps {
  readonly shown: Shown;
  readonly cell: ListCell | undefined;
  /** Names its row. */
  readonly first: boolean;
  /** How many columns of money there are: one alone needs no head on a slip. */
  readonly money: number;
  /** What the paper has under the row; a screen has it under the name. */
  readonly below: readonly string[];
}

function Cell({ shown: { kind, head, place }, cell, first, money, below }: CellProps) {
  const { words = '', fine = [], strong = false } = cell ?? {};
  const right = RIGHT.includes(kind);
  const headed = kind === 'number' || (kind === 'money' && money > 1);
  const said = {
    className: [right && 'money', strong && 'strong', kind === 'lot' && 'strong', kind === 'date' && 'unbroken', place]
      .filter(Boolean)
      .join(' '),
    'data-head': headed && words !== '' ? head : undefined,
  };
  const text = (
    <>
      {words}
      {[...fine, ...below].map((line) => (
        <div key={line} className="small soft">
          {line}
        </div>
      ))}
    </>
  );
  if (!first) return <td {...said}>{text}</td>;
  return (
    <th scope="row" {...said}>
      {text}
    </th>
  );
}

/** A column without a heading has an empty cell there, and no heading that says nothing. */
function Heading({ kind, words }: { readonly kind: ColumnKind; readonly words: string }) {
  if (words === '') return <td />;
  return (
    <th scope="col" data-kind={kind} className={RIGHT.includes(kind) ? 'money' : undefined}>
      {words}
    </th>
  );
}

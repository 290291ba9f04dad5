import { Fragment, type ReactNode } from 'react';

/** What parts a sentence: the spaces, but not the one between a figure and its percent sign. */
const PARTS = /(\d[\d.]* %[.,;:)]*|\s+)/;

/** Words with hyphens in them that belong together: a day, a season, a code, an option of a command. */
const WHOLE = /^\(?(?:-|[A-Z\d]+-)[\w-]*[.,;:)]*$|%/;

/** A sentence whose days, seasons, codes, phone numbers and percentages are never broken over two lines. */
export function Unbroken({ children }: { readonly children: string }) {
  return stretchesOf(children).map((stretch, at) =>
    WHOLE.test(stretch) ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: The parts of one sentence have no other name than their place.
      <span key={at} className="unbroken">
        {stretch}
      </span>
    ) : (
      stretch
    ),
  );
}

/** The sentence in as few pieces as there must be: those that hold together, and all that stands between them. */
function stretchesOf(sentence: string): string[] {
  const stretches: string[] = [];
  let between = '';
  for (const part of sentence.split(PARTS)) {
    if (!WHOLE.test(part)) between += part;
    else {
      stretches.push(between, part);
      between = '';
    }
  }
  return [...stretches, between].filter((stretch) => stretch !== '');
}

/** Words with commas between them, broken over two lines only there: never inside a number that has a hyphen. */
export function Phrases({ of }: { readonly of: readonly string[] }) {
  return of.map((phrase, at) => (
    <Fragment key={phrase}>
      <span className="phrase">{at < of.length - 1 ? `${phrase},` : phrase}</span>{' '}
    </Fragment>
  ));
}

interface ColumnHeadsProps {
  readonly words: readonly string[];
  /** The columns behind them whose figures stand to the right. */
  readonly figures?: readonly string[];
  readonly money?: readonly string[];
  /** Columns of words behind all these. */
  readonly after?: readonly string[];
  /** What a last column of buttons is called; only heard. */
  readonly heard?: string;
}

/** The head of a table: columns of words, then columns of figures and of money. */
export function ColumnHeads({ words, figures = [], money = [], after = [], heard }: ColumnHeadsProps) {
  const heads = (all: readonly string[], className?: string) =>
    all.map((head) => (
      <th key={head} scope="col" className={className}>
        {head}
      </th>
    ));
  return (
    <thead>
      <tr>
        {heads(words)}
        {heads(figures, 'figure')}
        {heads(money, 'money')}
        {heads(after)}
        {heard && (
          <th scope="col">
            <span className="visually-hidden">{heard}</span>
          </th>
        )}
      </tr>
    </thead>
  );
}

/** One column of a table: its head, and what stands in it. `key` heads its row, `sum` is what the row comes to. */
export interface Column<T> {
  readonly head: string;
  readonly as: 'key' | 'words' | 'figure' | 'money' | 'sum';
  readonly className?: string;
  readonly cell: (row: T) => ReactNode;
}

interface ColumnTableProps<T> {
  /** What the table is, for those who hear it. */
  readonly caption: string;
  readonly className?: string;
  readonly columns: readonly Column<T>[];
  readonly rows: readonly T[];
  readonly keyOf: (row: T) => string | number;
}

const CELLS = { key: '', words: '', figure: 'figure', money: 'money', sum: 'money slip-sum' } as const;

/** A table made from one list of columns. On a phone, where each row stands alone, a figure says its head itself. */
export function ColumnTable<T>({ caption, className = '', columns, rows, keyOf }: ColumnTableProps<T>) {
  const classOf = ({ as, className: own = '' }: Column<T>) => `${CELLS[as]} ${own}`.trim() || undefined;
  return (
    <table className={`slips summed ${className}`.trim()}>
      <caption className="visually-hidden">{caption}</caption>
      <thead>
        <tr>
          {columns.map(({ head, as }) => (
            <th key={head} scope="col" className={CELLS[as].split(' ')[0] || undefined}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={keyOf(row)}>
            {columns.map((column) =>
              column.as === 'key' ? (
                <th key={column.head} scope="row">
                  {column.cell(row)}
                </th>
              ) : (
                <td
                  key={column.head}
                  className={classOf(column)}
                  data-head={column.as === 'figure' || column.as === 'money' ? column.head : undefined}
                >
                  {column.cell(row)}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface ScrollRegionProps {
  readonly label: string;
  readonly className?: string;
  readonly children: ReactNode;
}

/** Room for a table that may be wider than the screen; it has a name and is reached and scrolled by keyboard too. */
export function ScrollRegion({ label, className = 'scroll-x slips-room', children }: ScrollRegionProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: What scrolls sideways must be reached by keyboard.
    <section className={className} aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}

/** A paper, opened beside the page so that nothing typed here is lost; the browser prints it from there. */
export function PrintLink({ href, children }: { readonly href: string; readonly children: ReactNode }) {
  return (
    <a className="button" href={href} target="_blank" rel="noopener">
      {children}
      <span className="visually-hidden"> (a PDF in a new window)</span>
    </a>
  );
}

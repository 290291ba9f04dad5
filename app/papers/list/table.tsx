/** One table of a list, under a heading that comes again on each page. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import { createElement } from 'react';
import type { ColumnKind, ListCell, ListTable } from '#lib/paper/list.ts';
import { Lines } from '../lines.tsx';
import { bold, fitted, type } from '../look.ts';
import { apartIn, COLUMNS } from './columns.ts';

const styles = StyleSheet.create({
  table: { marginTop: 8 },
  title: { ...bold(10), paddingTop: 4, paddingBottom: 3 },
  head: { ...bold(7.5), flexDirection: 'row', alignItems: 'flex-end', borderBottomWidth: 1, paddingBottom: 2 },
  unheaded: { borderBottomWidth: 1 },
  row: { flexDirection: 'row', borderTopWidth: 0.35, paddingTop: 2.5, paddingBottom: 2 },
  strong: { fontWeight: 700, borderTopWidth: 1, borderBottomWidth: 1 },
  writing: { minHeight: 26 },
  none: { paddingTop: 4 },
  sum: { ...bold(9), flexDirection: 'row', borderTopWidth: 1, borderBottomWidth: 1, paddingVertical: 3 },
  sumWords: { flex: 1 },
  fine: type(7.5),
});

/** A row with a cell of so many small lines, or letters, may be divided between two pages, as it could be longer than one. */
const TALL = { lines: 24, letters: 700 };

export function Table({ table }: { table: ListTable }) {
  const { title, rows, none, sum, sumAmount = '' } = table;
  return (
    <View style={styles.table}>
      {title !== '' && (
        <Text style={styles.title} minPresenceAhead={40}>
          {title}
        </Text>
      )}
      {rows.length === 0 ? <Text style={styles.none}>{none}</Text> : <TableHead table={table} />}
      {createElement(View, null, ...rows.map((row) => createElement(Row, { table, row })))}
      {sum !== '' && (
        <View wrap={false} style={styles.sum}>
          <Text style={styles.sumWords}>{sum}</Text>
          <Text>{sumAmount}</Text>
        </View>
      )}
    </View>
  );
}

function TableHead({ table }: { table: ListTable }) {
  if (table.columns.every(({ words }) => words === '')) return <View fixed style={styles.unheaded} />;
  const kinds = kindsOf(table);
  const cells = table.columns.map(({ kind, words }, at) =>
    createElement(Text, { style: [headOf(kind), apartIn(kinds, at)] }, words),
  );
  return createElement(View, { fixed: true, style: styles.head }, ...cells);
}

function headOf(kind: ColumnKind) {
  return kind === 'blank' ? { width: COLUMNS.blank.width, marginLeft: COLUMNS.blank.marginLeft } : COLUMNS[kind];
}

function kindsOf({ columns }: ListTable): ColumnKind[] {
  return columns.map(({ kind }) => kind);
}

function Row({ table, row }: { table: ListTable; row: readonly ListCell[] }) {
  const kinds = kindsOf(table);
  const writing = kinds.includes('blank') ? [styles.writing] : [];
  const strong = row.some((cell) => cell.strong) ? [styles.strong] : [];
  const cells = kinds.map((kind, at) => createElement(Cell, { kind, cell: row[at], apart: apartIn(kinds, at) }));
  const wrap = row.some(
    ({ words, fine }) => fine.length > TALL.lines || [words, ...fine].join(' ').length > TALL.letters,
  );
  return createElement(View, { wrap, style: [styles.row, ...writing, ...strong] }, ...cells);
}

interface CellProps {
  readonly kind: ColumnKind;
  readonly cell: ListCell | undefined;
  readonly apart: ReturnType<typeof apartIn>;
}

/** An empty cell only keeps its place, and may be written in; text costs the renderer far more than a box. */
function Cell({ kind, cell, apart }: CellProps) {
  const style = COLUMNS[kind];
  if (!cell || (cell.words === '' && cell.fine.length === 0)) return <View style={style} />;
  const { words, fine } = cell;
  const size = 'width' in style && kind !== 'quantity' ? [fitted(words, { size: 9, width: style.width - 6 })] : [];
  if (fine.length === 0) return <Text style={[style, apart, ...size]}>{words}</Text>;
  return (
    <View style={[style, apart]}>
      {words !== '' && <Text style={size}>{words}</Text>}
      <Lines style={styles.fine} lines={fine} />
    </View>
  );
}

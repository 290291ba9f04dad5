/** The parts of a list: its tables, each under a heading that comes again on each page, and what stands around them. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import { createElement } from 'react';
import { Lines, PageFoot, Result } from '#app/papers/lines.tsx';
import { bold, fitted, paperStyles, result, SIDE, type } from '#app/papers/styles.ts';
import type { ColumnKind, ListCell, ListPaper } from '#lib/paper/list.ts';
import { apartIn, BELOW, COLUMNS, PADDED, type PlacedTable } from './pages.ts';

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
  withBelow: { borderTopWidth: 0.35, paddingBottom: 2 },
  above: { borderTopWidth: 0, paddingBottom: 0 },
  below: { ...type(7.5), paddingLeft: BELOW },
  fine: type(7.5),
});

/** A row with a cell of so many small lines, or letters, may be divided between two pages, as it could be longer than one. */
const TALL = { lines: 24, letters: 700, below: 2500 };

export function PaperTable({ table }: { table: PlacedTable }) {
  const { title, rows, below, none, sum, sumAmount = '' } = table;
  return (
    <View style={styles.table}>
      {title !== '' && (
        <Text style={styles.title} minPresenceAhead={40}>
          {title}
        </Text>
      )}
      {rows.length === 0 ? <Text style={styles.none}>{none}</Text> : <TableHead table={table} />}
      {createElement(
        View,
        null,
        ...rows.map((row, at) => createElement(Row, { table, row, below: below?.[at] ?? [] })),
      )}
      {sum !== '' && (
        <View wrap={false} style={styles.sum}>
          <Text style={styles.sumWords}>{sum}</Text>
          <Text>{sumAmount}</Text>
        </View>
      )}
    </View>
  );
}

function TableHead({ table }: { table: PlacedTable }) {
  if (table.columns.every(({ words }) => words === '')) return <View fixed style={styles.unheaded} />;
  const kinds = kindsOf(table);
  const cells = table.columns.map(({ kind, words }, at) =>
    createElement(Text, { style: [headOf(kind), apartIn(kinds, at), ...ownWidth(table, at)] }, words),
  );
  return createElement(View, { fixed: true, style: styles.head }, ...cells);
}

/** The width of a column where the table's own figures made it wider than usual. */
function ownWidth({ columns, widths }: PlacedTable, at: number): { width: number }[] {
  const [kind, width] = [columns[at]?.kind, widths[at]];
  return width === undefined || kind === 'blank' ? [] : [{ width }];
}

function headOf(kind: ColumnKind) {
  return kind === 'blank' ? { width: COLUMNS.blank.width, marginLeft: COLUMNS.blank.marginLeft } : COLUMNS[kind];
}

function kindsOf({ columns }: PlacedTable): ColumnKind[] {
  return columns.map(({ kind }) => kind);
}

interface RowProps {
  readonly table: PlacedTable;
  readonly row: readonly ListCell[];
  readonly below: readonly string[];
}

function Row({ table, row, below }: RowProps) {
  const kinds = kindsOf(table);
  const writing = kinds.includes('blank') ? [styles.writing] : [];
  const strong = row.some((cell) => cell.strong) ? [styles.strong] : [];
  const cells = kinds.map((kind, at) => {
    const [own] = ownWidth(table, at);
    return createElement(Cell, { kind, cell: row[at], apart: apartIn(kinds, at), width: own?.width });
  });
  const wrap =
    row.some(({ words, fine }) => fine.length > TALL.lines || [words, ...fine].join(' ').length > TALL.letters) ||
    below.join(' ').length > TALL.below;
  const look = [styles.row, ...writing, ...strong];
  if (below.length === 0) return createElement(View, { wrap, style: look }, ...cells);
  return (
    <View wrap={wrap} style={styles.withBelow}>
      {createElement(View, { style: [...look, styles.above] }, ...cells)}
      <Lines style={styles.below} lines={below} />
    </View>
  );
}

interface CellProps {
  readonly kind: ColumnKind;
  readonly cell: ListCell | undefined;
  readonly apart: ReturnType<typeof apartIn>;
  /** In points; undefined for a column that shares what is left. */
  readonly width: number | undefined;
}

/** What is set smaller rather than wrapped. */
const SHRUNK: readonly ColumnKind[] = ['lot', 'number', 'price', 'money', 'figure'];

/** An empty cell only keeps its place, and may be written in; text costs the renderer far more than a box. */
function Cell({ kind, cell, apart, width }: CellProps) {
  const style = width === undefined ? COLUMNS[kind] : { ...COLUMNS[kind], width };
  if (!cell || (cell.words === '' && cell.fine.length === 0)) return <View style={style} />;
  const { words, fine } = cell;
  const size = SHRUNK.includes(kind) && width ? [fitted(words, { size: 9, width: width - PADDED })] : [];
  if (fine.length === 0) return <Text style={[style, apart, ...size]}>{words}</Text>;
  return (
    <View style={[style, apart]}>
      {words !== '' && <Text style={size}>{words}</Text>}
      <Lines style={styles.fine} lines={fine} />
    </View>
  );
}

const headStyles = StyleSheet.create({
  top: { flexDirection: 'row' },
  association: { flex: 1, paddingRight: 12 },
  name: bold(13),
  about: { width: 210, alignItems: 'flex-end', textAlign: 'right' },
  alone: { width: 280 },
  title: bold(16),
  number: { width: 92, height: 74, borderWidth: 1.5, alignItems: 'center', paddingTop: 6, marginLeft: 12 },
  figures: bold(42, 1.1),
  sale: { marginTop: 4, borderTopWidth: 1.5, paddingTop: 4 },
  saleName: bold(11),
  parties: { flexDirection: 'row', marginTop: 8 },
  party: { flex: 1, paddingRight: 12 },
  result: { ...result.line, alignSelf: 'flex-start', width: 264 },
});

/** The first page's heading: the association, what it is, the number to sort by, whom it is about. */
export function ListHead({ sheet }: { sheet: ListPaper }) {
  return (
    <View>
      <View style={headStyles.top}>
        <View style={headStyles.association}>
          <Text style={headStyles.name}>{sheet.association.name}</Text>
          <Lines lines={sheet.association.address} />
        </View>
        <View style={[headStyles.about, ...(sheet.number ? [] : [headStyles.alone])]}>
          <Text style={headStyles.title}>{sheet.title}</Text>
          <Text>{sheet.issuedWords}</Text>
        </View>
        {sheet.number && <NumberFrame {...sheet.number} />}
      </View>
      <View style={headStyles.sale}>
        <Text style={headStyles.saleName}>{sheet.sale.name}</Text>
        <Text>{sheet.sale.words}</Text>
      </View>
      <Parties sheet={sheet} />
    </View>
  );
}

function NumberFrame({ label, words }: NonNullable<ListPaper['number']>) {
  return (
    <View style={headStyles.number}>
      <Text>{label}</Text>
      {words !== '' && <Text style={[headStyles.figures, fitted(words, { size: 42, width: 86 })]}>{words}</Text>}
    </View>
  );
}

function Parties({ sheet }: { sheet: ListPaper }) {
  if (sheet.parties.length === 0 && !sheet.result) return null;
  return (
    <View style={headStyles.parties}>
      {sheet.parties.map(({ title, sentences }) => (
        <View key={title} style={headStyles.party}>
          <Text style={paperStyles.strong}>{title}</Text>
          <Lines lines={sentences} />
        </View>
      ))}
      {sheet.result && <Result {...sheet.result} width={170} style={headStyles.result} />}
    </View>
  );
}

const runningStyles = StyleSheet.create({
  head: { position: 'absolute', top: 22, left: SIDE, right: SIDE + 90, fontSize: 7.5, maxLines: 1 },
  number: { position: 'absolute', top: 16, right: SIDE, fontSize: 14, fontWeight: 700 },
});

/** The heading of the second page and on; the first has its own. */
export function ListRunningHead({ sheet }: { sheet: ListPaper }) {
  const name = `${sheet.sale.name} · ${sheet.title}`;
  const number = sheet.number ? `${sheet.number.label} ${sheet.number.words}` : '';
  return (
    <>
      <Text fixed style={runningStyles.head} render={({ pageNumber }) => (pageNumber === 1 ? '' : name)} />
      <Text fixed style={runningStyles.number} render={({ pageNumber }) => (pageNumber === 1 ? '' : number)} />
    </>
  );
}

export function ListFoot({ sheet }: { sheet: ListPaper }) {
  const number = sheet.number && sheet.number.words !== '' ? ` · ${sheet.number.label} ${sheet.number.words}` : '';
  return (
    <PageFoot
      head={sheet.head}
      issued={sheet.issued === true}
    >{`${sheet.title}${number} · ${sheet.association.name}`}</PageFoot>
  );
}

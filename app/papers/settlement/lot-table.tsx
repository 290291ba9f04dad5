/** The table of lots: one row a lot that no page break divides, under a heading that comes again on each page. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import { Lines } from '#app/papers/lines.tsx';
import { bold, fitted, type } from '#app/papers/styles.ts';
import { widened } from '#app/papers/widths.ts';
import type { LotGroup, SettlementSheet, SheetLot } from '#lib/settlement/model.ts';

const styles = StyleSheet.create({
  table: { marginTop: 8 },
  head: { ...bold(7.5), flexDirection: 'row', alignItems: 'flex-end', borderBottomWidth: 1, paddingBottom: 2 },
  group: { ...bold(9), paddingTop: 5, paddingBottom: 2 },
  row: { flexDirection: 'row', borderTopWidth: 0.35, paddingTop: 2.5, paddingBottom: 2 },
  sum: { ...bold(9), flexDirection: 'row', borderTopWidth: 1, borderBottomWidth: 1, paddingVertical: 3 },
  lot: { width: 38, fontWeight: 700 },
  goods: { flex: 1, paddingRight: 6 },
  figure: { width: 46, textAlign: 'right' },
  price: { width: 50, textAlign: 'right' },
  unit: { width: 34, paddingLeft: 3 },
  money: { width: 60, textAlign: 'right' },
  fees: { width: 44, textAlign: 'right' },
  commission: { width: 56, textAlign: 'right' },
  fine: type(7),
  none: { marginTop: 12 },
});

/** The widths of the columns of figures, by their names. */
type Widths = Readonly<Record<'figure' | 'price' | 'amount' | 'commission' | 'fees' | 'net', number>>;

const SIZE = 9;
/** What the columns of figures may take of the line: the lot, its units and the goods need the rest. */
const ROOM = 370;

function widthsOf({ counted, countedSum, beside }: SettlementSheet): Widths {
  const lots = [...counted, ...beside].flatMap((group) => group.lots);
  const rows = [...lots, ...(countedSum ? [countedSum] : [])];
  const columns = [
    { least: styles.figure.width, figures: lots.map(({ quantity }) => quantity.figure) },
    { least: styles.price.width, figures: lots.map(({ price }) => price.figure) },
    { least: styles.money.width, figures: rows.map(({ amount }) => amount.words) },
    { least: styles.commission.width, figures: rows.map(({ commission }) => commission.words) },
    { least: styles.fees.width, figures: rows.map(({ fees }) => fees.words) },
    { least: styles.money.width, figures: rows.map(({ net }) => net.words) },
  ];
  const widths = widened(columns, { size: SIZE, apart: 4, room: ROOM });
  const [figure = 0, price = 0, amount = 0, commission = 0, fees = 0, net = 0] = widths;
  return { figure, price, amount, commission, fees, net };
}

export function LotTable({ sheet }: { sheet: SettlementSheet }) {
  const { counted, countedSum, beside } = sheet;
  const widths = widthsOf(sheet);
  if (counted.length + beside.length === 0) return <Text style={styles.none}>No lots.</Text>;
  return (
    <View style={styles.table}>
      <TableHead widths={widths} />
      {counted.map((group) => (
        <Group key={group.kind} group={group} widths={widths} />
      ))}
      {countedSum && <SumRow sum={countedSum} widths={widths} />}
      {beside.map((group) => (
        <Group key={group.kind} group={group} widths={widths} />
      ))}
    </View>
  );
}

function TableHead({ widths }: { widths: Widths }) {
  return (
    <View fixed style={styles.head}>
      <Text style={styles.lot}>Lot</Text>
      <Text style={styles.goods}>Goods</Text>
      <Text style={[styles.figure, { width: widths.figure }]}>Quantity</Text>
      <View style={styles.unit} />
      <Text style={[styles.price, { width: widths.price }]}>Price</Text>
      <View style={styles.unit} />
      <Text style={[styles.money, { width: widths.amount }]}>Amount</Text>
      <Text style={[styles.commission, { width: widths.commission }]}>Commission</Text>
      <Text style={[styles.fees, { width: widths.fees }]}>Fees</Text>
      <Text style={[styles.money, { width: widths.net }]}>Net</Text>
    </View>
  );
}

// A group's title needs this much room under it, so that it never stands alone at the foot of a page.
const ROOM_FOR_A_ROW = 40;

function Group({ group, widths }: { group: LotGroup; widths: Widths }) {
  return (
    <>
      <Text style={styles.group} minPresenceAhead={ROOM_FOR_A_ROW}>
        {group.title}
      </Text>
      {group.lots.map((lot) => (
        <LotRow key={lot.lotNo} lot={lot} widths={widths} />
      ))}
    </>
  );
}

function LotRow({ lot, widths }: { lot: SheetLot; widths: Widths }) {
  return (
    <View wrap={false} style={styles.row}>
      <Text style={styles.lot}>{lot.lotNo}</Text>
      <Cell style={styles.goods} words={lot.goods} fine={[lot.detail, lot.note, lot.feesHow]} />
      <Cell style={styles.figure} width={widths.figure} words={lot.quantity.figure} />
      <Cell style={styles.unit} words={lot.quantity.unit} />
      <Cell
        style={styles.price}
        width={widths.price}
        words={lot.price.figure}
        fine={lot.price.kind === 'minimum' ? ['minimum'] : []}
      />
      <Cell style={styles.unit} words={lot.price.unit} />
      <Cell style={styles.money} width={widths.amount} words={lot.amount.words} />
      <Cell
        style={styles.commission}
        width={widths.commission}
        words={lot.commission.words}
        fine={[lot.commissionHow]}
      />
      <Cell style={styles.fees} width={widths.fees} words={lot.fees.words} />
      <Cell style={styles.money} width={widths.net} words={lot.net.words} />
    </View>
  );
}

interface CellProps {
  readonly style: (typeof styles)[keyof typeof styles];
  readonly words: string;
  /** Of a column of figures, in points. */
  readonly width?: number;
  /** Small lines under the words. */
  readonly fine?: readonly string[];
}

/** An empty cell only keeps its place: text costs the renderer far more than a box. */
function Cell({ style, words, width, fine = [] }: CellProps) {
  const place = width === undefined ? [style] : [style, { width }];
  if (words === '') return <View style={place} />;
  const size = width === undefined ? [] : [fitted(words, { size: SIZE, width: width - 2 })];
  if (fine.every((line) => line === '')) return <Text style={[...place, ...size]}>{words}</Text>;
  return (
    <View style={place}>
      <Text style={size}>{words}</Text>
      <Lines style={styles.fine} lines={fine} />
    </View>
  );
}

function SumRow({ sum, widths }: { sum: NonNullable<SettlementSheet['countedSum']>; widths: Widths }) {
  return (
    <View wrap={false} style={styles.sum}>
      <Text style={styles.goods}>{sum.label}</Text>
      <Cell style={styles.money} width={widths.amount} words={sum.amount.words} />
      <Cell style={styles.commission} width={widths.commission} words={sum.commission.words} />
      <Cell style={styles.fees} width={widths.fees} words={sum.fees.words} />
      <Cell style={styles.money} width={widths.net} words={sum.net.words} />
    </View>
  );
}

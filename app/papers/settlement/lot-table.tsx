/** The table of lots: one row a lot that no page break divides, under a heading that comes again on each page. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import { Lines } from '#app/papers/lines.tsx';
import { bold, fitted, type } from '#app/papers/styles.ts';
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

export function LotTable({ sheet }: { sheet: SettlementSheet }) {
  const { counted, countedSum, beside } = sheet;
  if (counted.length + beside.length === 0) return <Text style={styles.none}>No lots.</Text>;
  return (
    <View style={styles.table}>
      <TableHead />
      {counted.map((group) => (
        <Group key={group.kind} group={group} />
      ))}
      {countedSum && <SumRow sum={countedSum} />}
      {beside.map((group) => (
        <Group key={group.kind} group={group} />
      ))}
    </View>
  );
}

function TableHead() {
  return (
    <View fixed style={styles.head}>
      <Text style={styles.lot}>Lot</Text>
      <Text style={styles.goods}>Goods</Text>
      <Text style={styles.figure}>Quantity</Text>
      <View style={styles.unit} />
      <Text style={styles.price}>Price</Text>
      <View style={styles.unit} />
      <Text style={styles.money}>Amount</Text>
      <Text style={styles.commission}>Commission</Text>
      <Text style={styles.fees}>Fees</Text>
      <Text style={styles.money}>Net</Text>
    </View>
  );
}

// A group's title needs this much room under it, so that it never stands alone at the foot of a page.
const ROOM_FOR_A_ROW = 40;

function Group({ group }: { group: LotGroup }) {
  return (
    <>
      <Text style={styles.group} minPresenceAhead={ROOM_FOR_A_ROW}>
        {group.title}
      </Text>
      {group.lots.map((lot) => (
        <LotRow key={lot.lotNo} lot={lot} />
      ))}
    </>
  );
}

function LotRow({ lot }: { lot: SheetLot }) {
  return (
    <View wrap={false} style={styles.row}>
      <Text style={styles.lot}>{lot.lotNo}</Text>
      <Cell style={styles.goods} words={lot.goods} fine={[lot.detail, lot.note, lot.feesHow]} />
      <Cell style={styles.figure} words={lot.quantity.figure} />
      <Cell style={styles.unit} words={lot.quantity.unit} />
      <Cell style={styles.price} words={lot.price.figure} fine={lot.price.kind === 'minimum' ? ['minimum'] : []} />
      <Cell style={styles.unit} words={lot.price.unit} />
      <Cell style={styles.money} words={lot.amount.words} />
      <Cell style={styles.commission} words={lot.commission.words} fine={[lot.commissionHow]} />
      <Cell style={styles.fees} words={lot.fees.words} />
      <Cell style={styles.money} words={lot.net.words} />
    </View>
  );
}

interface CellProps {
  readonly style: (typeof styles)[keyof typeof styles];
  readonly words: string;
  /** Small lines under the words. */
  readonly fine?: readonly string[];
}

/** An empty cell only keeps its place: text costs the renderer far more than a box. */
function Cell({ style, words, fine = [] }: CellProps) {
  if (words === '') return <View style={style} />;
  const size = 'width' in style && 'textAlign' in style ? [fitted(words, { size: 9, width: style.width - 2 })] : [];
  if (fine.every((line) => line === '')) return <Text style={[style, ...size]}>{words}</Text>;
  return (
    <View style={style}>
      <Text style={size}>{words}</Text>
      <Lines style={styles.fine} lines={fine} />
    </View>
  );
}

function SumRow({ sum }: { sum: NonNullable<SettlementSheet['countedSum']> }) {
  return (
    <View wrap={false} style={styles.sum}>
      <Text style={styles.goods}>{sum.label}</Text>
      <Cell style={styles.money} words={sum.amount.words} />
      <Cell style={styles.commission} words={sum.commission.words} />
      <Cell style={styles.fees} words={sum.fees.words} />
      <Cell style={styles.money} words={sum.net.words} />
    </View>
  );
}

/** The table of lots: one row a lot that no page break divides, under a heading that comes again on each page. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { LotGroup, SettlementSheet, SheetLot } from '#lib/sheet/model.ts';

const styles = StyleSheet.create({
  table: { marginTop: 10 },
  head: {
    flexDirection: 'row',
    alignItems: 'flex-end',
    borderBottomWidth: 1,
    paddingBottom: 2,
    fontSize: 7.5,
    fontWeight: 700,
  },
  group: { fontWeight: 700, paddingTop: 7, paddingBottom: 2 },
  row: { flexDirection: 'row', borderTopWidth: 0.35, paddingVertical: 2.5 },
  sum: { flexDirection: 'row', borderTopWidth: 1, borderBottomWidth: 1, paddingVertical: 3, fontWeight: 700 },
  lot: { width: 38, fontWeight: 700 },
  goods: { flex: 1, paddingRight: 6 },
  figure: { width: 46, textAlign: 'right' },
  price: { width: 50, textAlign: 'right' },
  unit: { width: 34, paddingLeft: 3 },
  money: { width: 60, textAlign: 'right' },
  fees: { width: 44, textAlign: 'right' },
  commission: { width: 56, textAlign: 'right' },
  fine: { fontSize: 7 },
  waitingNone: { marginTop: 10 },
});

export function LotTable({ sheet }: { sheet: SettlementSheet }) {
  const { counted, countedSum, beside } = sheet;
  if (counted.length + beside.length === 0) return <Text style={styles.waitingNone}>No lots.</Text>;
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
      <Text style={styles.unit} />
      <Text style={styles.price}>Price</Text>
      <Text style={styles.unit} />
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
      <Goods lot={lot} />
      <Text style={styles.figure}>{lot.quantity.figure}</Text>
      <Text style={styles.unit}>{lot.quantity.unit}</Text>
      <Price price={lot.price} />
      <Text style={styles.money}>{lot.amount.words}</Text>
      <Commission lot={lot} />
      <Text style={styles.fees}>{lot.fees.words}</Text>
      <Text style={styles.money}>{lot.net.words}</Text>
    </View>
  );
}

function Goods({ lot }: { lot: SheetLot }) {
  const fine = [lot.detail, lot.note, lot.feesHow].filter((words) => words !== '');
  return (
    <View style={styles.goods}>
      <Text>{lot.goods}</Text>
      {fine.map((words) => (
        <Text key={words} style={styles.fine}>
          {words}
        </Text>
      ))}
    </View>
  );
}

function Price({ price }: { price: SheetLot['price'] }) {
  return (
    <>
      <View style={styles.price}>
        <Text>{price.figure}</Text>
        {price.kind === 'minimum' && <Text style={styles.fine}>minimum</Text>}
      </View>
      <Text style={styles.unit}>{price.unit}</Text>
    </>
  );
}

function Commission({ lot }: { lot: SheetLot }) {
  return (
    <View style={styles.commission}>
      <Text>{lot.commission.words}</Text>
      {lot.commissionHow !== '' && <Text style={styles.fine}>{lot.commissionHow}</Text>}
    </View>
  );
}

function SumRow({ sum }: { sum: NonNullable<SettlementSheet['countedSum']> }) {
  return (
    <View wrap={false} style={styles.sum}>
      <Text style={styles.goods}>{sum.label}</Text>
      <Text style={styles.money}>{sum.amount.words}</Text>
      <Text style={styles.commission}>{sum.commission.words}</Text>
      <Text style={styles.fees}>{sum.fees.words}</Text>
      <Text style={styles.money}>{sum.net.words}</Text>
    </View>
  );
}

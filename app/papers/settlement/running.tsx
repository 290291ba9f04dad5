/** What stands on every page of a sheet: whose it is, which page, and the head of the log. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { look, SIDE } from '../look.ts';

const styles = StyleSheet.create({
  top: {
    position: 'absolute',
    top: 18,
    left: SIDE,
    right: SIDE,
    flexDirection: 'row',
    justifyContent: 'space-between',
    alignItems: 'flex-end',
  },
  foot: {
    position: 'absolute',
    bottom: 20,
    left: SIDE,
    right: SIDE,
    borderTopWidth: 0.5,
    paddingTop: 3,
    fontSize: 7,
  },
  footRow: { flexDirection: 'row', justifyContent: 'space-between' },
  seller: { fontWeight: 700, fontSize: 12 },
});

function nameOf(sheet: SettlementSheet): string {
  return `${sheet.sale.name} · ${sheet.title} · ${sheet.numberWords}`;
}

/** The heading of the second page and on; the first has its own. */
export function RunningHead({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View
      fixed
      style={styles.top}
      render={({ subPageNumber }) =>
        subPageNumber === 1 ? null : (
          <>
            <Text style={look.small}>{nameOf(sheet)}</Text>
            <Text style={styles.seller}>Seller {sheet.sellerNo}</Text>
          </>
        )
      }
    />
  );
}

export function RunningFoot({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View fixed style={styles.foot}>
      <View style={styles.footRow}>
        <Text>
          {sheet.association.name} · seller {sheet.sellerNo} · {sheet.numberWords}
        </Text>
        <Text render={({ subPageNumber, subPageTotalPages }) => `Page ${subPageNumber} of ${subPageTotalPages}`} />
      </View>
      <Text>{sheet.head.words}</Text>
    </View>
  );
}

/** What stands on every page of a sheet: whose it is, which page, and the head of the log. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { SIDE } from '../look.ts';

const styles = StyleSheet.create({
  head: { position: 'absolute', top: 22, left: SIDE, fontSize: 7.5 },
  seller: { position: 'absolute', top: 16, right: SIDE, fontSize: 14, fontWeight: 700 },
  rule: { position: 'absolute', bottom: 40, left: SIDE, right: SIDE, borderTopWidth: 0.5 },
  foot: { position: 'absolute', bottom: 29, left: SIDE, right: SIDE + 70, fontSize: 7, maxLines: 1 },
  page: { position: 'absolute', bottom: 29, right: SIDE, fontSize: 7 },
  log: { position: 'absolute', bottom: 19, left: SIDE, fontSize: 7 },
});

/** The heading of the second page and on; the first has its own. */
export function RunningHead({ sheet }: { sheet: SettlementSheet }) {
  const name = `${sheet.sale.name} · ${sheet.title} · ${sheet.numberWords}`;
  const seller = `Seller ${sheet.sellerNo}`;
  return (
    <>
      <Text fixed style={styles.head} render={({ subPageNumber }) => (subPageNumber === 1 ? '' : name)} />
      <Text fixed style={styles.seller} render={({ subPageNumber }) => (subPageNumber === 1 ? '' : seller)} />
    </>
  );
}

export function RunningFoot({ sheet }: { sheet: SettlementSheet }) {
  return (
    <>
      <View fixed style={styles.rule} />
      <Text fixed style={styles.foot}>
        {sheet.numberWords} · seller {sheet.sellerNo} · {sheet.association.name}
      </Text>
      <Text
        fixed
        style={styles.page}
        render={({ subPageNumber, subPageTotalPages }) => `Page ${subPageNumber} of ${subPageTotalPages}`}
      />
      <Text fixed style={styles.log}>
        {sheet.head.words}
      </Text>
    </>
  );
}

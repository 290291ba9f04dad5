/** The small print: export tags by lot, the terms the sums follow, and who judges what this paper does not. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet, SheetTags } from '#lib/sheet/model.ts';
import { look } from '../look.ts';

const styles = StyleSheet.create({
  lot: { flexDirection: 'row', borderTopWidth: 0.35, paddingVertical: 2 },
  which: { width: 110, paddingRight: 6, fontSize: 8 },
  tags: { flex: 1 },
  tag: { width: 138, fontSize: 7.5, paddingRight: 4 },
  terms: { marginTop: 12, borderTopWidth: 1, paddingTop: 5 },
  sentence: { fontSize: 7.5 },
  caution: { marginTop: 5, fontSize: 8, fontWeight: 700 },
});

const TAGS_A_ROW = 3;

export function ExportTags({ sheet }: { sheet: SettlementSheet }) {
  if (sheet.tags.length === 0) return null;
  return (
    <View style={look.block}>
      <Text style={look.title} minPresenceAhead={30}>
        Export tags
      </Text>
      {sheet.tags.map((own) => (
        <TagsOfLot key={own.lotNo} own={own} />
      ))}
    </View>
  );
}

function TagsOfLot({ own }: { own: SheetTags }) {
  const rows = Array.from({ length: Math.ceil(own.tags.length / TAGS_A_ROW) }, (_, at) =>
    own.tags.slice(at * TAGS_A_ROW, (at + 1) * TAGS_A_ROW),
  );
  return (
    <View style={styles.lot}>
      <Text style={styles.which}>
        Lot {own.lotNo}, {own.goods}
      </Text>
      <View style={styles.tags}>
        {rows.map((row) => (
          <View key={row[0]?.tag} wrap={false} style={look.row}>
            {row.map(({ tag, words }) => (
              <Text key={tag} style={styles.tag}>
                {words}
              </Text>
            ))}
          </View>
        ))}
      </View>
    </View>
  );
}

export function Terms({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View wrap={false} style={styles.terms}>
      <Text style={look.title}>Terms of this sale</Text>
      {sheet.terms.map((sentence) => (
        <Text key={sentence} style={styles.sentence}>
          {sentence}
        </Text>
      ))}
      <Text style={styles.caution}>{sheet.caution}</Text>
    </View>
  );
}

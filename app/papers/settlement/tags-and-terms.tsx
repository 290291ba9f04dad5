/** The small print: export tags by lot, the terms the sums follow, and who judges what this paper does not. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet, SheetTags } from '#lib/sheet/model.ts';
import { Lines } from '../lines.tsx';
import { bold, look, type } from '../look.ts';

const styles = StyleSheet.create({
  block: { marginTop: 8 },
  lot: { flexDirection: 'row', borderTopWidth: 0.35, paddingVertical: 2 },
  which: { ...type(8), width: 110, paddingRight: 6 },
  tags: { flex: 1 },
  tag: { ...type(7.5), width: '33.3%', paddingRight: 4 },
  terms: { marginTop: 10, borderTopWidth: 1, paddingTop: 3 },
  sentences: { ...type(7), width: '50%', paddingRight: 12 },
  caution: { ...bold(7.5), marginTop: 3 },
});

const TAGS_A_ROW = 3;

export function ExportTags({ sheet }: { sheet: SettlementSheet }) {
  if (sheet.tags.length === 0) return null;
  return (
    <View style={styles.block}>
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
      <Text fixed style={styles.which}>
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
  const half = Math.ceil(sheet.terms.length / 2);
  return (
    <View wrap={false} style={styles.terms}>
      <Text style={look.title}>Terms of this sale</Text>
      <View style={look.row}>
        <Lines style={styles.sentences} lines={sheet.terms.slice(0, half)} />
        <Lines style={styles.sentences} lines={sheet.terms.slice(half)} />
      </View>
      <Text style={styles.caution}>{sheet.caution}</Text>
    </View>
  );
}

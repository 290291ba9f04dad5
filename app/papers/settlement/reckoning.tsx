/** From gross to net, and who gets it. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet, SheetShare, SheetStep } from '#lib/sheet/model.ts';
import { look } from '../look.ts';

const styles = StyleSheet.create({
  block: { flexDirection: 'row', marginTop: 14 },
  left: { flex: 1, paddingRight: 18 },
  steps: { width: 264 },
  step: { flexDirection: 'row', paddingVertical: 1.5, fontSize: 10 },
  sum: {
    flexDirection: 'row',
    borderTopWidth: 1,
    borderBottomWidth: 2,
    paddingVertical: 3,
    marginTop: 2,
    fontSize: 13,
    fontWeight: 700,
  },
  sign: { width: 26, fontSize: 8, paddingTop: 1 },
  label: { flex: 1 },
  figure: { width: 100, textAlign: 'right' },
  shares: { marginTop: 12 },
  share: { flexDirection: 'row', alignItems: 'flex-end', borderTopWidth: 0.35, paddingTop: 7, paddingBottom: 2 },
  name: { flex: 1, paddingRight: 8, fontSize: 10 },
  parts: { width: 76 },
  amount: { width: 84, textAlign: 'right', fontWeight: 700, fontSize: 11 },
  blank: { width: 78, marginLeft: 10, borderBottomWidth: 0.5 },
  hand: { fontSize: 6.5 },
});

/** Steps and shares stay on one page as long as one page can hold them. */
const MOST_ON_ONE_PAGE = 24;

export function Reckoning({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View wrap={sheet.steps.length + sheet.shares.length > MOST_ON_ONE_PAGE}>
      <View style={styles.block}>
        <Asides sheet={sheet} />
        <View style={styles.steps}>
          {sheet.steps.map((step, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two charges can read the same, and the steps never move.
            <Step key={at} step={step} />
          ))}
        </View>
      </View>
      <View style={styles.shares}>
        <Text style={look.title}>{sheet.sharesTitle}</Text>
        {sheet.shares.map((share) => (
          <Share key={share.personId} share={share} owed={sheet.result.kind === 'owes'} />
        ))}
      </View>
    </View>
  );
}

function Step({ step }: { step: SheetStep }) {
  const sign = step.kind === 'less' || step.kind === 'plus' ? step.kind : '';
  return (
    <View wrap={false} style={step.kind === 'sum' ? styles.sum : styles.step}>
      {step.kind !== 'sum' && <Text style={styles.sign}>{sign}</Text>}
      <Text style={styles.label}>{step.label}</Text>
      <Text style={styles.figure}>{step.words}</Text>
    </View>
  );
}

/** What explains the figures: the bill's sentence, cash already paid, remarks. */
function Asides({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View style={styles.left}>
      {sheet.result.sentence !== '' && <Text style={look.strong}>{sheet.result.sentence}</Text>}
      <Notes title="Paid in cash, not in this sum" lines={sheet.paidInCash} />
      <Notes title="Remarks" lines={sheet.remarks} />
    </View>
  );
}

function Notes({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <View style={{ marginBottom: 6 }}>
      <Text style={look.title}>{title}</Text>
      {lines.map((line, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two remarks can read the same, and they never move.
        <Text key={at}>{line}</Text>
      ))}
    </View>
  );
}

/** One partner's part, with room to write by hand how it was paid. */
function Share({ share, owed }: { share: SheetShare; owed: boolean }) {
  return (
    <View wrap={false} style={styles.share}>
      <Text style={styles.name}>{share.name}</Text>
      <Text style={styles.parts}>{share.partsWords}</Text>
      <Text style={styles.amount}>{share.share.words}</Text>
      {(owed ? ['paid on', 'taken by'] : ['check no.', 'received']).map((label) => (
        <View key={label} style={styles.blank}>
          <Text style={styles.hand}>{label}</Text>
        </View>
      ))}
    </View>
  );
}

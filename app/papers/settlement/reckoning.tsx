/** From gross to net, and who gets it. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import { Lines } from '#app/papers/lines.tsx';
import { bold, fitted, paperStyles, type } from '#app/papers/styles.ts';
import type { SettlementSheet, SheetShare, SheetStep, SheetTags } from '#lib/settlement/model.ts';

const styles = StyleSheet.create({
  block: { flexDirection: 'row', marginTop: 12 },
  left: { flex: 1, paddingRight: 18 },
  notes: { marginBottom: 6 },
  bill: { ...bold(10), marginBottom: 6 },
  steps: { width: 264 },
  step: { ...type(10), flexDirection: 'row', paddingVertical: 1 },
  sum: {
    ...bold(13),
    flexDirection: 'row',
    borderTopWidth: 1,
    borderBottomWidth: 2,
    paddingTop: 3,
    paddingBottom: 2,
    marginTop: 2,
  },
  sign: { ...type(8), width: 26, paddingTop: 2 },
  label: { flex: 1 },
  figure: { width: 100, textAlign: 'right' },
  shares: { marginTop: 8 },
  share: { flexDirection: 'row', alignItems: 'flex-end', borderTopWidth: 0.35, paddingTop: 5, paddingBottom: 2 },
  name: { ...type(10), flex: 1, paddingRight: 8 },
  parts: { width: 76 },
  amount: { ...bold(11), width: 84, textAlign: 'right' },
  blank: { width: 84, height: 16, marginLeft: 10, borderBottomWidth: 0.5 },
  hand: type(6.5),
});

// About how high they are, in points.
const STEP = 15;
const SHARE = 22;
const AROUND = 40;
/** What is higher may be parted, so that no page is left a third empty for the sake of one block. */
const HIGHEST = 190;

/** Steps and shares stay on one page where that leaves no large gap; else each of the two does. */
export function Reckoning({ sheet }: { sheet: SettlementSheet }) {
  const [steps, shares] = [AROUND + STEP * sheet.steps.length, AROUND + SHARE * sheet.shares.length];
  return (
    <View wrap={steps + shares > HIGHEST}>
      <View wrap={steps > HIGHEST} style={styles.block}>
        <Asides sheet={sheet} />
        <View style={styles.steps}>
          {sheet.steps.map((step, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two charges can read the same, and the steps never move.
            <Step key={at} step={step} />
          ))}
        </View>
      </View>
      <View wrap={shares > HIGHEST} style={styles.shares}>
        <Text style={paperStyles.title} minPresenceAhead={SHARE}>
          {sheet.sharesTitle}
        </Text>
        {sheet.shares.map((share) => (
          <Share key={share.personId} share={share} byHand={BY_HAND[sheet.result.kind]} />
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
      <Text style={[styles.figure, fitted(step.words, { size: step.kind === 'sum' ? 13 : 10, width: 100 })]}>
        {step.words}
      </Text>
    </View>
  );
}

/** What explains the figures: the bill's sentence, cash already paid, remarks. */
function Asides({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View style={styles.left}>
      {sheet.result.sentence !== '' && <Text style={styles.bill}>{sheet.result.sentence}</Text>}
      <Notes title="Paid in cash, not in this sum" lines={sheet.paidInCash} />
      <Notes title="Remarks" lines={sheet.remarks} />
    </View>
  );
}

function Notes({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <View style={styles.notes}>
      <Text style={paperStyles.title}>{title}</Text>
      <Lines lines={lines} />
    </View>
  );
}

const PAID = ['check no.', 'received'];
/** Behind a correction a share is not what is paid. */
const BY_HAND = { pays: PAID, even: PAID, owes: ['paid on', 'taken by'], net: [] } as const;

/** One partner's part, with room to write by hand how it was paid. */
function Share({ share, byHand }: { share: SheetShare; byHand: readonly string[] }) {
  return (
    <View wrap={false} style={styles.share}>
      <View style={styles.name}>
        <Text>{share.name}</Text>
        <Lines style={paperStyles.fine} lines={share.paidTo ? [share.paidTo] : []} />
      </View>
      <Text style={styles.parts}>{share.partsWords}</Text>
      <Text style={[styles.amount, fitted(share.share.words, { size: 11, width: 84 })]}>{share.share.words}</Text>
      {byHand.map((label) => (
        <View key={label} style={styles.blank}>
          <Text style={styles.hand}>{label}</Text>
        </View>
      ))}
    </View>
  );
}

const tagStyles = StyleSheet.create({
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
    <View style={tagStyles.block}>
      <Text style={paperStyles.title} minPresenceAhead={30}>
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
    <View style={tagStyles.lot}>
      <Text fixed style={tagStyles.which}>
        Lot {own.lotNo}, {own.goods}
      </Text>
      <View style={tagStyles.tags}>
        {rows.map((row) => (
          <View key={row[0]?.tag} wrap={false} style={paperStyles.row}>
            {row.map(({ tag, words }) => (
              <Text key={tag} style={tagStyles.tag}>
                {words}
              </Text>
            ))}
          </View>
        ))}
      </View>
    </View>
  );
}

export function TermsBlock({ sheet }: { sheet: SettlementSheet }) {
  const half = Math.ceil(sheet.terms.length / 2);
  return (
    <View wrap={false} style={tagStyles.terms}>
      <Text style={paperStyles.title}>Terms of this sale</Text>
      <View style={paperStyles.row}>
        <Lines style={tagStyles.sentences} lines={sheet.terms.slice(0, half)} />
        <Lines style={tagStyles.sentences} lines={sheet.terms.slice(half)} />
      </View>
      <Text style={tagStyles.caution}>{sheet.caution}</Text>
    </View>
  );
}

/** The printed settlement sheet: places the finished words and figures of its model, and computes nothing. */
import { Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet, SheetPartner } from '#lib/settlement/model.ts';
import { Lines, PageFoot, Result } from './lines.tsx';
import { LotTable } from './settlement/lot-table.tsx';
import { ExportTags, Reckoning, TermsBlock } from './settlement/reckoning.tsx';
import { bold, type PaperSize, paperStyles, result, SIDE, SIZES, type } from './styles.ts';

const styles = StyleSheet.create({
  top: { flexDirection: 'row', minHeight: 100 },
  association: { flex: 1, paddingRight: 12 },
  associationName: bold(13),
  longName: bold(10),
  about: { width: 178, paddingRight: 12, alignItems: 'flex-end', textAlign: 'right' },
  paper: bold(13),
  number: bold(11),
  preview: { ...bold(15), backgroundColor: '#000000', color: '#ffffff', paddingHorizontal: 8, marginVertical: 2 },
  seller: { minWidth: 92, height: 74, borderWidth: 1.5, alignItems: 'center', paddingTop: 6, paddingHorizontal: 8 },
  sellerNo: bold(42, 1.1),
  // The address begins 140 points from the top and 72 from the left: inside the window of a US no. 10 envelope with
  // the sheet folded in three, and inside the address field of DIN 5008 on A4. Common practice for the former.
  middle: { flexDirection: 'row', minHeight: 84 },
  window: { width: 262, paddingLeft: 36, paddingRight: 12, ...type(10.5) },
  beside: { flex: 1 },
  saleName: bold(11),
  partner: { marginTop: 4 },
  result: { ...result.line, marginTop: 7 },
});

export function SettlementSheetPages({ sheet, size }: { sheet: SettlementSheet; size: PaperSize }) {
  return (
    <Page size={SIZES[size].name} style={paperStyles.page} wrap>
      <FoldMarks height={SIZES[size].height} />
      <RunningHead sheet={sheet} />
      <View style={paperStyles.body}>
        <Heading sheet={sheet} />
        <LotTable sheet={sheet} />
        <Reckoning sheet={sheet} />
        <ExportTags sheet={sheet} />
        <TermsBlock sheet={sheet} />
      </View>
      <PageFoot head={sheet.head} issued={sheet.number !== null} bySheet>
        {sheet.numberWords} · seller {sheet.sellerNo} · {sheet.association.name}
      </PageFoot>
    </Page>
  );
}

/** The first page's heading: the association, the number to sort by, the address for the window, the result. */
function Heading({ sheet }: { sheet: SettlementSheet }) {
  const [first] = sheet.partners;
  return (
    <View>
      <View style={styles.top}>
        <AssociationBlock sheet={sheet} />
        <About sheet={sheet} />
        <View style={styles.seller}>
          <Text>Seller</Text>
          <Text style={styles.sellerNo}>{sheet.sellerNo}</Text>
        </View>
      </View>
      <View style={styles.middle}>
        {/* Nothing else stands there that could be read through an envelope. */}
        <Lines style={styles.window} lines={first ? [first.name, ...first.address] : []} />
        <Beside sheet={sheet} />
      </View>
    </View>
  );
}

/** Set smaller, a longer name still leaves the address its place in the window. */
const LONG_NAME = 60;

function AssociationBlock({ sheet }: { sheet: SettlementSheet }) {
  const { name } = sheet.association;
  return (
    <View style={styles.association}>
      <Text style={name.length > LONG_NAME ? styles.longName : styles.associationName}>{name}</Text>
      <Lines lines={sheet.association.address} />
    </View>
  );
}

function About({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View style={styles.about}>
      <Text style={styles.paper}>{sheet.title}</Text>
      <Text style={sheet.preview ? styles.preview : styles.number}>{sheet.numberWords}</Text>
      <Text>{sheet.issuedWords}</Text>
    </View>
  );
}

function Beside({ sheet }: { sheet: SettlementSheet }) {
  const { label, words } = sheet.result;
  return (
    <View style={styles.beside}>
      <Text style={styles.saleName}>{sheet.sale.name}</Text>
      <Lines lines={[sheet.sale.words, sheet.membershipWords]} />
      {sheet.partners.map((partner, at) => (
        <Partner key={partner.personId} partner={partner} withAddress={at > 0} />
      ))}
      <Result label={label} words={`${words} ${sheet.sale.currency}`} width={160} style={styles.result} />
    </View>
  );
}

function Partner({ partner, withAddress }: { partner: SheetPartner; withAddress: boolean }) {
  const papers = [partner.member, partner.licence].filter((words) => words !== '').join(' · ');
  const lines = [withAddress ? partner.address.join(', ') : '', papers];
  return (
    <View style={styles.partner}>
      <Text style={paperStyles.strong}>{partner.name}</Text>
      <Lines style={paperStyles.fine} lines={lines} />
    </View>
  );
}

const runningStyles = StyleSheet.create({
  fold: { position: 'absolute', left: 16, width: 9, borderTopWidth: 0.5 },
  head: { position: 'absolute', top: 22, left: SIDE, fontSize: 7.5 },
  seller: { position: 'absolute', top: 16, right: SIDE, fontSize: 14, fontWeight: 700 },
});

/** The heading of the second page and on; the first has its own. */
function RunningHead({ sheet }: { sheet: SettlementSheet }) {
  const name = `${sheet.sale.name} · ${sheet.title} · ${sheet.numberWords}`;
  const seller = `Seller ${sheet.sellerNo}`;
  return (
    <>
      <Text fixed style={runningStyles.head} render={({ subPageNumber }) => (subPageNumber === 1 ? '' : name)} />
      <Text fixed style={runningStyles.seller} render={({ subPageNumber }) => (subPageNumber === 1 ? '' : seller)} />
    </>
  );
}

/** Two short strokes at the left edge of the first page, where it is folded in three for an envelope. */
function FoldMarks({ height }: { height: number }) {
  return (
    <>
      <View style={[runningStyles.fold, { top: height / 3 }]} />
      <View style={[runningStyles.fold, { top: (height * 2) / 3 }]} />
    </>
  );
}

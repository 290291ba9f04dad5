/** The first page's heading: the association, the number to sort by, the address for the window, the result. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { SettlementSheet, SheetPartner } from '#lib/sheet/model.ts';
import { look } from '../look.ts';

const styles = StyleSheet.create({
  top: { flexDirection: 'row', height: 100 },
  association: { flex: 1, paddingRight: 12 },
  associationName: { fontWeight: 700, fontSize: 13 },
  about: { width: 170, paddingRight: 12, alignItems: 'flex-end', textAlign: 'right' },
  paper: { fontWeight: 700, fontSize: 13 },
  number: { fontWeight: 700, fontSize: 11 },
  preview: {
    fontWeight: 700,
    fontSize: 15,
    backgroundColor: '#000000',
    color: '#ffffff',
    paddingHorizontal: 8,
    paddingTop: 3,
  },
  seller: { minWidth: 92, height: 72, borderWidth: 1.5, alignItems: 'center', paddingTop: 4, paddingHorizontal: 8 },
  sellerNo: { fontWeight: 700, fontSize: 40, lineHeight: 1.1 },
  // The address begins 140 points from the top and 72 from the left: inside the window of a US no. 10 envelope with
  // the sheet folded in three, and inside the address field of DIN 5008 on A4.
  middle: { flexDirection: 'row', minHeight: 96 },
  window: { width: 270, paddingLeft: 36, fontSize: 10.5 },
  beside: { flex: 1 },
  saleName: { fontWeight: 700, fontSize: 11 },
  others: { marginTop: 5 },
  result: {
    flexDirection: 'row',
    justifyContent: 'space-between',
    alignItems: 'flex-end',
    marginTop: 8,
    borderTopWidth: 1.5,
    borderBottomWidth: 1.5,
    paddingVertical: 4,
  },
  resultLabel: { fontWeight: 700, fontSize: 11 },
  resultFigure: { fontWeight: 700, fontSize: 18, lineHeight: 1 },
});

export function Heading({ sheet }: { sheet: SettlementSheet }) {
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
        <Window sheet={sheet} />
        <Beside sheet={sheet} />
      </View>
    </View>
  );
}

function AssociationBlock({ sheet }: { sheet: SettlementSheet }) {
  return (
    <View style={styles.association}>
      <Text style={styles.associationName}>{sheet.association.name}</Text>
      {sheet.association.address.map((line) => (
        <Text key={line}>{line}</Text>
      ))}
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

/** The first partner's address, where the envelope's window is. */
function Window({ sheet }: { sheet: SettlementSheet }) {
  const [first] = sheet.partners;
  return (
    <View style={styles.window}>
      {first && (
        <>
          <Text>{first.name}</Text>
          {first.address.map((line) => (
            <Text key={line}>{line}</Text>
          ))}
          <Papers partner={first} />
        </>
      )}
    </View>
  );
}

function Papers({ partner }: { partner: SheetPartner }) {
  return (
    <Text style={look.small}>{[partner.member, partner.licence].filter((words) => words !== '').join(' · ')}</Text>
  );
}

function Beside({ sheet }: { sheet: SettlementSheet }) {
  const [, ...others] = sheet.partners;
  return (
    <View style={styles.beside}>
      <Text style={styles.saleName}>{sheet.sale.name}</Text>
      <Text>{sheet.sale.words}</Text>
      <Text>{sheet.membershipWords}</Text>
      {others.map((partner) => (
        <View key={partner.personId} style={styles.others}>
          <Text>
            with <Text style={look.strong}>{partner.name}</Text>
          </Text>
          <Text style={look.small}>{partner.address.join(', ')}</Text>
          <Papers partner={partner} />
        </View>
      ))}
      <View style={styles.result}>
        <Text style={styles.resultLabel}>{sheet.result.label}</Text>
        <Text style={styles.resultFigure}>
          {sheet.result.words} {sheet.sale.currency}
        </Text>
      </View>
    </View>
  );
}

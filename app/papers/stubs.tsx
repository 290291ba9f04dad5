/** Check stubs, three a page, to be cut apart and stapled to their checks. Common practice, no source. */
import { Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import { createElement } from 'react';
import type { StubPage } from '#lib/paper/labels.ts';
import type { ListPaper, ListTable } from '#lib/paper/list.ts';
import { Lines } from './lines.tsx';
import { bold, fitted, type PaperSize, paperStyles, SIDE, SIZES, type } from './styles.ts';

const styles = StyleSheet.create({
  stub: { ...type(9), paddingTop: 22, paddingHorizontal: SIDE },
  cut: { position: 'absolute', left: 0, right: 0, bottom: 0, borderTopWidth: 0.5, borderStyle: 'dashed' },
  top: { flexDirection: 'row', borderBottomWidth: 1, paddingBottom: 4 },
  from: { flex: 1, paddingRight: 12 },
  name: bold(11),
  number: { flexDirection: 'row', justifyContent: 'flex-end', alignItems: 'flex-end' },
  title: { ...type(9), paddingRight: 8 },
  figures: bold(20, 1.1),
  said: { marginTop: 4 },
  middle: { flexDirection: 'row', marginTop: 6 },
  party: { flex: 1, paddingRight: 18 },
  table: { width: 264 },
  row: { flexDirection: 'row', paddingVertical: 0.75 },
  head: { ...bold(7.5), flexDirection: 'row', borderBottomWidth: 0.5, paddingBottom: 1, marginBottom: 1.5 },
  strong: { ...bold(10), flexDirection: 'row', borderTopWidth: 1, borderBottomWidth: 1.5, paddingTop: 2, marginTop: 2 },
  words: { flex: 1 },
  foot: { position: 'absolute', left: SIDE, right: SIDE, bottom: 12 },
  fine: type(6.5),
});

export function Stubs({ sheet, size }: { sheet: StubPage; size: PaperSize }) {
  const third = SIZES[size].height / 3;
  return (
    <Page size={SIZES[size].name} style={paperStyles.bare}>
      {sheet.stubs.map(({ list, thirds }, at) => (
        <View key={list.number?.words} wrap={false} style={[styles.stub, { height: thirds * third }]}>
          <OneStub list={list} remarks={at === 0 ? sheet.remarks : []} />
          <View style={styles.cut} />
        </View>
      ))}
    </Page>
  );
}

function OneStub({ list, remarks }: { list: ListPaper; remarks: readonly string[] }) {
  const { association, sale, title, number, opening, parties, tables } = list;
  return (
    <>
      <View style={styles.top}>
        <View style={styles.from}>
          <Text style={styles.name}>{association.name}</Text>
          <Text style={paperStyles.fine}>{association.address.join(' · ')}</Text>
          <Text style={paperStyles.fine}>{`${sale.name} · ${sale.words}`}</Text>
        </View>
        <View style={styles.number}>
          <Text style={styles.title}>{title}</Text>
          <Text style={styles.figures}>{number?.words}</Text>
        </View>
      </View>
      <Lines style={styles.said} lines={opening} />
      <View style={styles.middle}>
        <View style={styles.party}>
          {parties.map((party) => (
            <Lines key={party.title} lines={[party.title, ...party.sentences]} />
          ))}
        </View>
        <View style={styles.table}>
          {createElement(View, null, ...tables.map((table) => createElement(Steps, { table })))}
        </View>
      </View>
      <View style={styles.foot}>
        <Lines style={styles.fine} lines={[...remarks, list.issuedWords, list.caution, list.head.words]} />
      </View>
    </>
  );
}

function Steps({ table }: { table: ListTable }) {
  return (
    <>
      <View style={styles.head}>
        <Text style={styles.words}>{table.title}</Text>
        <Text>{table.columns.at(-1)?.words}</Text>
      </View>
      {createElement(
        View,
        null,
        ...table.rows.map(([label, amount]) =>
          createElement(
            View,
            { style: label?.strong ? styles.strong : styles.row },
            createElement(Text, { style: styles.words }, label?.words),
            createElement(
              Text,
              { style: fitted(amount?.words ?? '', { size: label?.strong ? 10 : 9, width: 90 }) },
              amount?.words,
            ),
          ),
        ),
      )}
    </>
  );
}

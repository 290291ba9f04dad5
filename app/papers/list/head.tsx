/** The first page's heading of a list: the association, what it is, the number to sort by, whom it is about. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { ListPaper } from '#lib/paper/list.ts';
import { Lines } from '../lines.tsx';
import { bold, fitted, look, result } from '../look.ts';

const styles = StyleSheet.create({
  top: { flexDirection: 'row' },
  association: { flex: 1, paddingRight: 12 },
  name: bold(13),
  about: { width: 210, alignItems: 'flex-end', textAlign: 'right' },
  alone: { width: 280 },
  title: bold(16),
  number: { width: 92, height: 74, borderWidth: 1.5, alignItems: 'center', paddingTop: 6, marginLeft: 12 },
  figures: bold(42, 1.1),
  sale: { marginTop: 4, borderTopWidth: 1.5, paddingTop: 4 },
  saleName: bold(11),
  parties: { flexDirection: 'row', marginTop: 8 },
  party: { flex: 1, paddingRight: 12 },
  result: { ...result.line, alignSelf: 'flex-start', width: 264 },
  resultLabel: result.label,
  resultFigure: result.figure,
});

export function ListHead({ sheet }: { sheet: ListPaper }) {
  return (
    <View>
      <View style={styles.top}>
        <View style={styles.association}>
          <Text style={styles.name}>{sheet.association.name}</Text>
          <Lines lines={sheet.association.address} />
        </View>
        <View style={[styles.about, ...(sheet.number ? [] : [styles.alone])]}>
          <Text style={styles.title}>{sheet.title}</Text>
          <Text>{sheet.issuedWords}</Text>
        </View>
        {sheet.number && <NumberFrame label={sheet.number.label} words={sheet.number.words} />}
      </View>
      <View style={styles.sale}>
        <Text style={styles.saleName}>{sheet.sale.name}</Text>
        <Text>{sheet.sale.words}</Text>
      </View>
      <Parties sheet={sheet} />
    </View>
  );
}

function NumberFrame({ label, words }: { label: string; words: string }) {
  return (
    <View style={styles.number}>
      <Text>{label}</Text>
      {words !== '' && <Text style={[styles.figures, fitted(words, { size: 42, width: 86 })]}>{words}</Text>}
    </View>
  );
}

function Parties({ sheet }: { sheet: ListPaper }) {
  if (sheet.parties.length === 0 && !sheet.result) return null;
  return (
    <View style={styles.parties}>
      {sheet.parties.map(({ title, sentences }) => (
        <View key={title} style={styles.party}>
          <Text style={look.strong}>{title}</Text>
          <Lines lines={sentences} />
        </View>
      ))}
      {sheet.result && <Result {...sheet.result} />}
    </View>
  );
}

/** What it comes to, as large as on a settlement sheet. */
function Result({ label, words }: NonNullable<ListPaper['result']>) {
  return (
    <View style={styles.result}>
      <Text style={styles.resultLabel}>{label}</Text>
      <Text style={[styles.resultFigure, fitted(words, { size: 18, width: 170 })]}>{words}</Text>
    </View>
  );
}

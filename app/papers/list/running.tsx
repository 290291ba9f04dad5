/** What stands on every page of a list: what it is, which page, and the head of the log. A list is a file of its own. */
import { StyleSheet, Text, View } from '@react-pdf/renderer';
import type { ListPaper } from '#lib/paper/list.ts';
import { SIDE } from '../look.ts';

const styles = StyleSheet.create({
  head: { position: 'absolute', top: 22, left: SIDE, right: SIDE + 90, fontSize: 7.5, maxLines: 1 },
  number: { position: 'absolute', top: 16, right: SIDE, fontSize: 14, fontWeight: 700 },
  rule: { position: 'absolute', bottom: 40, left: SIDE, right: SIDE, borderTopWidth: 0.5 },
  foot: { position: 'absolute', bottom: 29, left: SIDE, right: SIDE + 70, fontSize: 7, maxLines: 1 },
  page: { position: 'absolute', bottom: 29, right: SIDE, fontSize: 7 },
  log: { position: 'absolute', bottom: 19, left: SIDE, fontSize: 7 },
});

/** The heading of the second page and on; the first has its own. */
export function ListRunningHead({ sheet }: { sheet: ListPaper }) {
  const name = `${sheet.sale.name} · ${sheet.title}`;
  const number = sheet.number ? `${sheet.number.label} ${sheet.number.words}` : '';
  return (
    <>
      <Text fixed style={styles.head} render={({ pageNumber }) => (pageNumber === 1 ? '' : name)} />
      <Text fixed style={styles.number} render={({ pageNumber }) => (pageNumber === 1 ? '' : number)} />
    </>
  );
}

export function ListFoot({ sheet }: { sheet: ListPaper }) {
  const number = sheet.number && sheet.number.words !== '' ? ` · ${sheet.number.label} ${sheet.number.words}` : '';
  return (
    <>
      <View fixed style={styles.rule} />
      <Text fixed style={styles.foot}>
        {`${sheet.title}${number} · ${sheet.association.name}`}
      </Text>
      <Text fixed style={styles.page} render={({ pageNumber, totalPages }) => `Page ${pageNumber} of ${totalPages}`} />
      <Text fixed style={styles.log}>
        {sheet.head.words}
      </Text>
    </>
  );
}

/** Every paper that is a list: a heading like the settlement sheet's, tables, sentences, lines to sign on. */
import { Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import { createElement, Fragment } from 'react';
import { type PageTables, pagesOfList } from '#app/papers/list/pages.ts';
import { ListFoot, ListHead, ListRunningHead, PaperTable } from '#app/papers/list/table.tsx';
import type { ListPaper } from '#lib/paper/list.ts';
import { Lines } from './lines.tsx';
import { bold, type PaperSize, paperStyles, SIZES, type } from './styles.ts';

const styles = StyleSheet.create({
  opening: { ...type(9.5), marginTop: 6 },
  closing: { marginTop: 10 },
  sentences: type(8),
  remarks: { marginTop: 8 },
  signatures: { flexDirection: 'row', marginTop: 30, columnGap: 20 },
  signature: { flex: 1, maxWidth: 260, borderTopWidth: 0.75, paddingTop: 2, ...type(7.5) },
  caution: { ...bold(7.5), marginTop: 8 },
});

export function ListPages({ sheet, size }: { sheet: ListPaper; size: PaperSize }) {
  const pages = pagesOfList(sheet, size);
  const drawn = pages.map((tables, at) =>
    createElement(ListPage, { sheet, size, tables, first: at === 0, last: at === pages.length - 1 }),
  );
  return createElement(Fragment, null, ...drawn);
}

interface ListPageProps {
  readonly sheet: ListPaper;
  readonly size: PaperSize;
  readonly tables: PageTables;
  readonly first: boolean;
  readonly last: boolean;
}

function ListPage({ sheet, size, tables, first, last }: ListPageProps) {
  return (
    <Page size={SIZES[size].name} style={paperStyles.page} wrap>
      <ListRunningHead sheet={sheet} />
      <View style={paperStyles.body}>
        {first && <Beginning sheet={sheet} />}
        {createElement(Fragment, null, ...tables.map((table) => createElement(PaperTable, { table })))}
        {last && <Ending sheet={sheet} />}
      </View>
      <ListFoot sheet={sheet} />
    </Page>
  );
}

function Beginning({ sheet }: { sheet: ListPaper }) {
  return (
    <>
      <ListHead sheet={sheet} />
      <Lines style={styles.opening} lines={sheet.opening} />
      {sheet.signedAtTop && <Signatures words={sheet.signatures} />}
    </>
  );
}

/** What is said and signed under the tables stays together. */
function Ending({ sheet }: { sheet: ListPaper }) {
  return (
    <View wrap={false}>
      <Lines style={styles.remarks} lines={sheet.remarks} />
      {sheet.closing.map(({ title, sentences }) => (
        <View key={title} style={styles.closing}>
          <Text style={paperStyles.title}>{title}</Text>
          <Lines style={styles.sentences} lines={sentences} />
        </View>
      ))}
      {!sheet.signedAtTop && <Signatures words={sheet.signatures} />}
      {sheet.caution !== '' && <Text style={styles.caution}>{sheet.caution}</Text>}
    </View>
  );
}

function Signatures({ words }: { words: readonly string[] }) {
  if (words.length === 0) return null;
  return (
    <View style={styles.signatures}>
      {words.map((under) => (
        <Text key={under} style={styles.signature}>
          {under}
        </Text>
      ))}
    </View>
  );
}

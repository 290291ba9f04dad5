/** The larger lot tickets, two a page: half a letter sheet each, or A5. */
import { Page, StyleSheet, Text, View } from '@react-pdf/renderer';
import { createElement } from 'react';
import type { TicketPage } from '#lib/paper/labels.ts';
import type { Ticket } from '#lib/paper/tickets.ts';
import { Bars, Qr } from './codes.tsx';
import { bold, fitted, type PaperSize, paperStyles, SIZES, type } from './styles.ts';

const MARGIN = 30;

const styles = StyleSheet.create({
  half: { position: 'absolute', left: 0, right: 0, paddingVertical: 24, paddingHorizontal: MARGIN, overflow: 'hidden' },
  cut: { position: 'absolute', left: 0, right: 0, borderTopWidth: 0.5, borderStyle: 'dashed' },
  head: { ...type(8), flexDirection: 'row', justifyContent: 'space-between', borderBottomWidth: 0.5, paddingBottom: 3 },
  name: { flex: 1, maxLines: 1, textOverflow: 'ellipsis' },
  sale: { maxWidth: 260, maxLines: 1, textOverflow: 'ellipsis' },
  main: { flexDirection: 'row', marginTop: 4 },
  words: { flex: 1, paddingRight: 12 },
  no: { ...bold(120, 1.05), height: 130, flexShrink: 0 },
  seller: bold(28, 1.15),
  goods: { ...bold(21, 1.15), marginTop: 4, maxLines: 2, textOverflow: 'ellipsis' },
  line: { ...type(15), maxLines: 1, textOverflow: 'ellipsis' },
  side: { width: 132, alignItems: 'center' },
  mark: { backgroundColor: '#000000', color: '#ffffff', width: 128, alignItems: 'center', paddingVertical: 3 },
  markWords: bold(21, 1.15),
  gloves: type(9),
  caution: { ...bold(9.5), marginTop: 4, maxLines: 3, textOverflow: 'ellipsis' },
  tags: { ...type(8.5), marginTop: 4, maxLines: 3, textOverflow: 'ellipsis' },
  bars: { position: 'absolute', right: MARGIN, bottom: 20, flexDirection: 'row' },
});

export function Tickets({ sheet, size }: { sheet: TicketPage; size: PaperSize }) {
  const half = SIZES[size].height / 2;
  return (
    <Page size={SIZES[size].name} style={paperStyles.bare}>
      {sheet.tickets.map((ticket, at) => (
        <View key={ticket.lotNo} style={[styles.half, { top: at * half, height: half }]}>
          <OneTicket ticket={ticket} association={sheet.association.name} />
        </View>
      ))}
      <View style={[styles.cut, { top: half }]} />
    </Page>
  );
}

function OneTicket({ ticket, association }: { ticket: Ticket; association: string }) {
  return (
    <>
      <View style={styles.head}>
        <Text style={styles.name}>{association}</Text>
        <Text style={styles.sale}>{ticket.sale}</Text>
      </View>
      <View style={styles.main}>
        <Words ticket={ticket} />
        <View style={styles.side}>
          <Qr text={ticket.code} module={4.32} />
          {ticket.mark !== '' && (
            <View style={styles.mark}>
              <Text style={styles.markWords}>{ticket.mark}</Text>
              <Text style={styles.gloves}>{ticket.shortCaution}</Text>
            </View>
          )}
        </View>
      </View>
      <View style={styles.bars}>
        <Bars text={ticket.code} module={1.44} width={300} height={36} />
      </View>
    </>
  );
}

function Words({ ticket }: { ticket: Ticket }) {
  const lines = [ticket.quantity, ticket.detail, ticket.longMinimum, ticket.note].filter((line) => line !== '');
  const drawn = lines.map((line) =>
    createElement(Text, { style: [styles.line, fitted(line, { size: 15, width: 440 })] }, line),
  );
  return (
    <View style={styles.words}>
      <Text style={[styles.no, fitted(ticket.lotNo, { size: 120, width: 380 })]}>{ticket.lotNo}</Text>
      <Text style={styles.seller}>{ticket.seller}</Text>
      <Text style={styles.goods}>{ticket.goods}</Text>
      {createElement(View, null, ...drawn)}
      {ticket.caution !== '' && <Text style={styles.caution}>{ticket.caution}</Text>}
      {ticket.tagList !== '' && <Text style={styles.tags}>{ticket.tagList}</Text>}
    </View>
  );
}

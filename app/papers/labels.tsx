/** Lot tickets on a sheet of labels. Everything is placed by the model, so that it lies on the label. */
import { Line, Page, Rect, StyleSheet, Svg, Text, View } from '@react-pdf/renderer';
import type { Spot } from '#lib/paper/label-stock.ts';
import type { AlignmentPage, LabelPage } from '#lib/paper/labels.ts';
import type { Ticket } from '#lib/paper/tickets.ts';
import { Bars, Qr } from './codes.tsx';
import { bold, fitted, paperStyles, SIZES, type } from './styles.ts';

// Points: the label is 189 by 72. The left part holds the words and the bars, the right one the QR code and the mark.
const LEFT = 136;
const RIGHT = 42;
const MODULE_QR = 1.44;
const MODULE_128 = 0.72;

const styles = StyleSheet.create({
  label: { position: 'absolute', flexDirection: 'row', paddingTop: 4, paddingHorizontal: 5, overflow: 'hidden' },
  left: { width: LEFT },
  top: { flexDirection: 'row', height: 24 },
  no: { ...bold(23, 1), paddingRight: 5 },
  beside: { flex: 1 },
  seller: { ...bold(8), maxLines: 1 },
  quantity: { ...type(6.8, 1.15), maxLines: 2 },
  goods: { ...bold(8.5), maxLines: 1, textOverflow: 'ellipsis' },
  long: { ...bold(7, 1.12), maxLines: 2, textOverflow: 'ellipsis' },
  fine: { ...type(6.5), maxLines: 1, textOverflow: 'ellipsis' },
  bars: { position: 'absolute', left: 5, bottom: 3 },
  right: { width: RIGHT, alignItems: 'center' },
  mark: { backgroundColor: '#000000', color: '#ffffff', width: RIGHT, alignItems: 'center', paddingVertical: 1 },
  markWords: bold(7.6),
  gloves: type(6),
});

export function Labels({ sheet }: { sheet: LabelPage }) {
  return (
    <Page size={SIZES.letter.name} style={paperStyles.bare}>
      {sheet.labels.map(({ spot, ticket }) => (
        <View key={ticket.lotNo} style={[styles.label, placed(spot)]}>
          <Words ticket={ticket} />
          <Right ticket={ticket} />
          <View style={styles.bars}>
            <Bars text={ticket.code} module={MODULE_128} width={LEFT} height={12} />
          </View>
        </View>
      ))}
    </Page>
  );
}

function placed({ x, y, width, height }: Spot) {
  return { left: x, top: y, width, height };
}

/** A name of goods that is longer is set smaller and in two lines. */
const LONG = 24;

function Words({ ticket }: { ticket: Ticket }) {
  const { goods, short, minimum } = ticket;
  const long = goods.length > LONG;
  return (
    <View style={styles.left}>
      <View style={styles.top}>
        <Text style={[styles.no, fitted(ticket.lotNo, { size: 23, width: 82 })]}>{ticket.lotNo}</Text>
        <View style={styles.beside}>
          <Text style={[styles.seller, fitted(ticket.seller, { size: 8, width: 58 })]}>{ticket.seller}</Text>
          <Text style={styles.quantity}>{ticket.quantity}</Text>
        </View>
      </View>
      <Text style={long ? styles.long : styles.goods}>{goods}</Text>
      {!long && short !== '' && <Text style={styles.fine}>{short}</Text>}
      {minimum !== '' && <Text style={styles.fine}>{minimum}</Text>}
    </View>
  );
}

function Right({ ticket }: { ticket: Ticket }) {
  return (
    <View style={styles.right}>
      <Qr text={ticket.code} module={MODULE_QR} />
      {ticket.mark !== '' && (
        <View style={styles.mark}>
          <Text style={styles.markWords}>{ticket.mark}</Text>
          <Text style={styles.gloves}>{ticket.shortCaution}</Text>
        </View>
      )}
    </View>
  );
}

const STROKE = 0.5;
const MM = 72 / 25.4;
const TICKS = [-5, -4, -3, -2, -1, 1, 2, 3, 4, 5];
const PAGE = { width: 612, height: SIZES.letter.height };

const alignmentStyles = StyleSheet.create({
  drawing: { position: 'absolute', left: 0, top: 0 },
  words: { position: 'absolute', flexDirection: 'row', alignItems: 'center', padding: 8 },
  no: { ...bold(18), width: 34 },
  sentence: { ...type(7.5), flex: 1 },
});

export function LabelAlignment({ sheet }: { sheet: AlignmentPage }) {
  return (
    <Page size={SIZES.letter.name} style={paperStyles.bare}>
      <Svg style={alignmentStyles.drawing} width={PAGE.width} height={PAGE.height}>
        {sheet.labels.map(({ spot, no }) => (
          <Frame key={no} spot={spot} />
        ))}
        {sheet.labels.map(({ spot, no, scale }) => scale && <Scales key={no} spot={spot} />)}
      </Svg>
      {sheet.labels.map(({ spot, no, sentence }) => (
        <View key={no} style={[alignmentStyles.words, placed(spot)]}>
          <Text style={alignmentStyles.no}>{no}</Text>
          <Text style={alignmentStyles.sentence}>{sentence}</Text>
        </View>
      ))}
    </Page>
  );
}

function Frame({ spot: { x, y, width, height } }: { spot: Spot }) {
  return <Rect x={x} y={y} width={width} height={height} fill="none" stroke="#000000" strokeWidth={STROKE} />;
}

/** Millimetres across the left edge, low on the label, and across the upper one. */
function Scales({ spot }: { spot: Spot }) {
  const low = spot.y + spot.height * 0.8;
  const aside = spot.x + spot.width / 2;
  return (
    <>
      {TICKS.map((mm) => (
        <Tick key={`across ${mm}`} x={spot.x + mm * MM} y={low} mm={mm} across={false} />
      ))}
      {TICKS.map((mm) => (
        <Tick key={`down ${mm}`} x={aside} y={spot.y + mm * MM} mm={mm} across />
      ))}
    </>
  );
}

function Tick({ x, y, mm, across }: { x: number; y: number; mm: number; across: boolean }) {
  const reach = Math.abs(mm) === 5 ? 6 : 3.5;
  const [dx, dy] = across ? [reach, 0] : [0, reach];
  return <Line x1={x - dx} y1={y - dy} x2={x + dx} y2={y + dy} stroke="#000000" strokeWidth={STROKE} />;
}

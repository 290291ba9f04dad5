/** The page by which a printer is aligned to a sheet of labels: a frame for each label, and scales to read off. */
import { Line, Page, Rect, StyleSheet, Svg, Text, View } from '@react-pdf/renderer';
import type { Spot } from '#lib/paper/label-stock.ts';
import type { AlignmentPage } from '#lib/paper/labels.ts';
import { FAMILY } from './fonts.ts';
import { bold, SIZES, type } from './look.ts';

const STROKE = 0.5;
const MM = 72 / 25.4;
const TICKS = [-5, -4, -3, -2, -1, 1, 2, 3, 4, 5];
const PAGE = { width: 612, height: SIZES.letter.height };

const styles = StyleSheet.create({
  page: { fontFamily: FAMILY, color: '#000000' },
  drawing: { position: 'absolute', left: 0, top: 0 },
  words: { position: 'absolute', flexDirection: 'row', alignItems: 'center', padding: 8 },
  no: { ...bold(18), width: 34 },
  sentence: { ...type(7.5), flex: 1 },
});

export function LabelAlignment({ sheet }: { sheet: AlignmentPage }) {
  return (
    <Page size={SIZES.letter.name} style={styles.page}>
      <Svg style={styles.drawing} width={PAGE.width} height={PAGE.height}>
        {sheet.labels.map(({ spot, no }) => (
          <Frame key={no} spot={spot} />
        ))}
        {sheet.labels
          .filter(({ scale }) => scale)
          .map(({ spot, no }) => (
            <Scales key={no} spot={spot} />
          ))}
      </Svg>
      {sheet.labels.map(({ spot, no, sentence }) => (
        <View key={no} style={[styles.words, { left: spot.x, top: spot.y, width: spot.width, height: spot.height }]}>
          <Text style={styles.no}>{no}</Text>
          <Text style={styles.sentence}>{sentence}</Text>
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
        <Tick key={`across ${mm}`} x={spot.x + mm * MM} y={low} across={false} long={Math.abs(mm) === 5} />
      ))}
      {TICKS.map((mm) => (
        <Tick key={`down ${mm}`} x={aside} y={spot.y + mm * MM} across long={Math.abs(mm) === 5} />
      ))}
    </>
  );
}

interface TickProps {
  readonly x: number;
  readonly y: number;
  readonly across: boolean;
  readonly long: boolean;
}

function Tick({ x, y, across, long }: TickProps) {
  const reach = long ? 6 : 3.5;
  const [dx, dy] = across ? [reach, 0] : [0, reach];
  return <Line x1={x - dx} y1={y - dy} x2={x + dx} y2={y + dy} stroke="#000000" strokeWidth={STROKE} />;
}

/** The two codes of a ticket as vector paths: QR (ISO/IEC 18004) and Code 128 (ISO/IEC 15417). */
import { Path, Svg } from '@react-pdf/renderer';
import { box, darkRuns, encoder, type Linear, QUIET_QR, qrOf } from './encoder.ts';

// The quiet zone that the standard asks for, in modules, from memory: 10 beside a Code 128.
const QUIET_128 = 10;

interface CodeProps {
  readonly text: string;
  /** The width of the narrowest bar in points. At 200 dots an inch a dot is 0.36 points. */
  readonly module: number;
}

/** A QR code with its quiet zone. */
export function Qr({ text, module }: CodeProps) {
  const code = qrOf(text);
  const side = code.pixx + 2 * QUIET_QR;
  return (
    <Svg width={side * module} height={side * module} viewBox={`0 0 ${side} ${side}`}>
      <Path d={darkRuns(code)} fill="#000000" />
    </Svg>
  );
}

interface BarsProps extends CodeProps {
  readonly height: number;
  /** The most room there is, in points: a longer code is drawn narrower. */
  readonly width: number;
}

/** A Code 128 with its quiet zones. */
export function Bars({ text, module, height, width }: BarsProps) {
  const [code] = encoder().raw('code128', text);
  if (!code) throw new Error(`No Code 128 of ${text}`);
  const modules = code.sbs.reduce((so, one) => so + one, 2 * QUIET_128);
  const drawn = Math.min(modules * module, width);
  return (
    <Svg width={drawn} height={height} viewBox={`0 0 ${modules} 1`} preserveAspectRatio="none">
      <Path d={barsOf(code)} fill="#000000" />
    </Svg>
  );
}

function barsOf({ sbs }: Linear): string {
  let x = QUIET_128;
  return sbs
    .map((width, at) => {
      const bar = at % 2 === 0 ? box(x, 0, [width, 1]) : '';
      x += width;
      return bar;
    })
    .join('');
}

/** The two codes of a ticket as vector paths: QR (ISO/IEC 18004) and Code 128 (ISO/IEC 15417). */
import { createRequire } from 'node:module';
import { Path, Svg } from '@react-pdf/renderer';

interface Linear {
  /** Widths of bars and spaces in turn, beginning with a bar, in modules. */
  readonly sbs: readonly number[];
}

interface Matrix {
  /** 1 for a dark module, row by row. */
  readonly pixs: readonly number[];
  readonly pixx: number;
  readonly pixy: number;
}

/** What is used of bwip-js: it encodes, and the drawing is ours, so that every edge lies where a printer's dots are. */
interface Encoder {
  raw(kind: 'code128', text: string): readonly Linear[];
  raw(kind: 'qrcode', text: string, options: { readonly eclevel: 'M' }): readonly Matrix[];
}

let loaded: Encoder | undefined;

/** Read at the first ticket: a megabyte of program that no other paper needs. */
function encoder(): Encoder {
  loaded ??= createRequire(import.meta.url)('bwip-js') as Encoder;
  return loaded;
}

// The quiet zones that the standards ask for, in modules, from memory: 4 around a QR code, 10 beside a Code 128.
const QUIET_QR = 4;
const QUIET_128 = 10;

interface CodeProps {
  readonly text: string;
  /** The width of the narrowest bar in points. At 200 dots an inch a dot is 0.36 points. */
  readonly module: number;
}

/** A QR code with its quiet zone. */
export function Qr({ text, module }: CodeProps) {
  const [code] = encoder().raw('qrcode', text, { eclevel: 'M' });
  if (!code) throw new Error(`No QR code of ${text}`);
  const side = code.pixx + 2 * QUIET_QR;
  return (
    <Svg width={side * module} height={side * module} viewBox={`0 0 ${side} ${side}`}>
      <Path d={darkRuns(code)} fill="#000000" />
    </Svg>
  );
}

/** One rectangle for each run of dark modules in a row. */
function darkRuns({ pixs, pixx, pixy }: Matrix): string {
  const rows = Array.from({ length: pixy }, (_, y) => pixs.slice(y * pixx, y * pixx + pixx).join(''));
  return rows
    .flatMap((row, y) =>
      [...row.matchAll(/1+/g)].map(({ index, 0: run }) => box(QUIET_QR + index, QUIET_QR + y, [run.length, 1])),
    )
    .join('');
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

function box(x: number, y: number, [width, height]: readonly [number, number]): string {
  return `M${x} ${y}h${width}v${height}h${-width}z`;
}

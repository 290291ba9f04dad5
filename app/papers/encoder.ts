/** The encoder of QR codes (ISO/IEC 18004) and of Code 128 (ISO/IEC 15417): it encodes, and the drawing is ours. */
import { createRequire } from 'node:module';

export interface Linear {
  /** Widths of bars and spaces in turn, beginning with a bar, in modules. */
  readonly sbs: readonly number[];
}

export interface Matrix {
  /** 1 for a dark module, row by row. */
  readonly pixs: readonly number[];
  readonly pixx: number;
  readonly pixy: number;
}

/** What is used of bwip-js. */
interface Encoder {
  raw(kind: 'code128', text: string): readonly Linear[];
  raw(kind: 'qrcode', text: string, options: { readonly eclevel: 'M' }): readonly Matrix[];
}

let loaded: Encoder | undefined;

/** Read at the first code: a megabyte of program that little else needs. */
export function encoder(): Encoder {
  loaded ??= createRequire(import.meta.url)('bwip-js') as Encoder;
  return loaded;
}

// The quiet zone that the standard asks for, in modules, from memory.
export const QUIET_QR = 4;

/** The modules of a QR code. @throws Error where the text is too long for one. */
export function qrOf(text: string): Matrix {
  const [code] = encoder().raw('qrcode', text, { eclevel: 'M' });
  if (!code) throw new Error(`No QR code of ${text}`);
  return code;
}

/** Paths of SVG: one rectangle for each run of dark modules in a row, within the quiet zone. */
export function darkRuns({ pixs, pixx, pixy }: Matrix): string {
  const rows = Array.from({ length: pixy }, (_, y) => pixs.slice(y * pixx, y * pixx + pixx).join(''));
  return rows
    .flatMap((row, y) =>
      [...row.matchAll(/1+/g)].map(({ index, 0: run }) => box(QUIET_QR + index, QUIET_QR + y, [run.length, 1])),
    )
    .join('');
}

export function box(x: number, y: number, [width, height]: readonly [number, number]): string {
  return `M${x} ${y}h${width}v${height}h${-width}z`;
}

/** A QR code in letters for a terminal, two rows of modules in one of letters, light on dark as most terminals are. */
export function qrInLetters(text: string): string {
  const { pixs, pixx, pixy } = qrOf(text);
  const [wide, high] = [pixx + 2 * QUIET_QR, pixy + 2 * QUIET_QR];
  const light = (x: number, y: number) => {
    const [column, row] = [x - QUIET_QR, y - QUIET_QR];
    if (column < 0 || row < 0 || column >= pixx || row >= pixy) return true;
    return pixs[row * pixx + column] !== 1;
  };
  const letter = (x: number, y: number) => {
    const [upper, lower] = [light(x, y), y + 1 < high && light(x, y + 1)];
    if (upper) return lower ? '█' : '▀';
    return lower ? '▄' : ' ';
  };
  const rows = Array.from({ length: Math.ceil(high / 2) }, (_, at) => 2 * at);
  return rows.map((y) => Array.from({ length: wide }, (_, x) => letter(x, y)).join('')).join('\n');
}

/** Reads drawn pages back as pictures: poppler's pdftoppm makes them, zbarimg reads the codes on them. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { tempFile } from '#tests/support/temp.ts';

/** A part of a page, in points from the top left. */
export interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Picturing {
  readonly page: number;
  readonly dpi: number;
  readonly part?: Part;
}

/** A part of a page as a grey picture; gives its file, a PGM. */
function picture(file: string, { page, dpi, part }: Picturing): string {
  const dots = (points: number) => String(Math.round((points * dpi) / 72));
  const crop = part ? ['-x', dots(part.x), '-y', dots(part.y), '-W', dots(part.width), '-H', dots(part.height)] : [];
  const name = tempFile('page');
  const pages = ['-f', String(page), '-l', String(page)];
  execFileSync('pdftoppm', ['-r', String(dpi), ...pages, ...crop, '-gray', '-singlefile', file, name]);
  return `${name}.pgm`;
}

export interface Scanned {
  readonly qr: readonly string[];
  readonly code128: readonly string[];
}

/** Every code that a scanner program finds there, each kind in code point order. */
export function scan(file: string, picturing: Picturing): Scanned {
  // It ends with 4 where it finds nothing, which is an answer too; and it complains of a bus that is not there.
  const found = outputOf('zbarimg', ['-q', picture(file, picturing)]);
  const lines = found.split('\n').map((line) => line.trim());
  const of = (kind: string) => lines.filter((line) => line.startsWith(kind)).map((line) => line.slice(kind.length));
  return { qr: of('QR-Code:').sort(), code128: of('CODE-128:').sort() };
}

function outputOf(program: string, args: readonly string[]): string {
  try {
    return execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
  } catch (fault) {
    if ((fault as { status?: number }).status === 4) return '';
    throw fault;
  }
}

/** The grey values of a page, row by row: 0 is black, 255 white. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  at(x: number, y: number): number;
}

export function greyOf(file: string, picturing: Picturing): Grey {
  const bytes = readFileSync(picture(file, picturing));
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  if (!head) throw new Error('no PGM of 8 bits');
  const width = Number.parseInt(head[1] ?? '', 10);
  const height = Number.parseInt(head[2] ?? '', 10);
  const start = head[0].length;
  return { width, height, at: (x, y) => bytes[start + y * width + x] ?? 255 };
}

/** Reads drawn pages back as pictures: poppler's pdftoppm makes them, zbarimg reads the codes on them. */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { tempFile } from '#tests/support/temp.ts';

/** A part of a page, in points from the top left. */
interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Picturing {
  readonly page: number;
  readonly dpi: number;
}

/** A page as a grey picture; gives its file, a PGM. */
function picture(file: string, { page, dpi }: Picturing): string {
  const name = tempFile('page');
  const pages = ['-f', String(page), '-l', String(page)];
  execFileSync('pdftoppm', ['-r', String(dpi), ...pages, '-gray', '-singlefile', file, name]);
  return `${name}.pgm`;
}

export interface Scanned {
  readonly qr: readonly string[];
  readonly code128: readonly string[];
}

interface Place {
  readonly page: number;
  readonly part: Part;
}

/**
 * Every code that a scanner program finds at each place, each kind in code point order. Each page is drawn once as a
 * picture, and the places are cut out of it.
 */
export function scanParts(file: string, dpi: number, places: readonly Place[]): Scanned[] {
  const pages = new Map<number, Grey>();
  const pieces = places.map(({ page, part }) => {
    const grey = pages.get(page) ?? greyOf(file, { page, dpi });
    pages.set(page, grey);
    return cut(grey, dpi, part);
  });
  // It ends with 4 where it finds nothing on a picture, which is an answer too; and it complains of a bus that is not there.
  const found = outputOf('zbarimg', ['-q', '--xml', ...pieces]);
  const sources = new Map(found.split("<source href='").map((text) => [text.slice(0, text.indexOf("'")), text]));
  return pieces.map((piece) => {
    const symbols = [...(sources.get(piece) ?? '').matchAll(SYMBOL)];
    const of = (kind: string) => symbols.flatMap(([, type, text = '']) => (type === kind ? [text] : [])).sort();
    return { qr: of('QR-Code'), code128: of('CODE-128') };
  });
}

const SYMBOL = /<symbol type='([^']+)'[^>]*><data><!\[CDATA\[([^\]]*)\]\]>/g;

/** A part of a page as a picture of its own, as a phone or a scanner sees it, white beyond the page. Gives its file. */
function cut(page: Grey, dpi: number, part: Part): string {
  const dots = (points: number) => Math.round((points * dpi) / 72);
  const [left, top, width, height] = [dots(part.x), dots(part.y), dots(part.width), dots(part.height)];
  const rows = Array.from({ length: height }, (_, y) => {
    const row = Buffer.alloc(width, 255);
    row.set(page.row(top + y).subarray(Math.max(0, left), left + width), Math.max(0, -left));
    return row;
  });
  const name = tempFile('part.pgm');
  writeFileSync(name, Buffer.concat([Buffer.from(`P5\n${width} ${height}\n255\n`), ...rows]));
  return name;
}

function outputOf(program: string, args: readonly string[]): string {
  try {
    return execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
  } catch (fault) {
    const { status, stdout } = fault as { status?: number; stdout?: string };
    if (status === 4) return stdout ?? '';
    throw fault;
  }
}

/** The grey values of a page, row by row: 0 is black, 255 white. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  at(x: number, y: number): number;
  /** None beyond the edge of the page. */
  row(y: number): Uint8Array;
}

export function greyOf(file: string, picturing: Picturing): Grey {
  const bytes = readFileSync(picture(file, picturing));
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  if (!head) throw new Error('no PGM of 8 bits');
  const width = Number.parseInt(head[1] ?? '', 10);
  const height = Number.parseInt(head[2] ?? '', 10);
  const start = head[0].length;
  return {
    ...{ width, height, at: (x, y) => bytes[start + y * width + x] ?? 255 },
    row: (y) => (y < 0 ? bytes.subarray(0, 0) : bytes.subarray(start + y * width, start + (y + 1) * width)),
  };
}

/** Reads a PDF back with programs that are not ours: poppler's pdftotext and pdfinfo, and qpdf. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { tempFile } from '#tests/support/temp.ts';

export interface ReadBack {
  readonly file: string;
  /** The text of each page, as it stands on it. */
  readonly pages: readonly string[];
  /** All of it with every run of blanks as one. */
  readonly text: string;
}

// A missing program is a failure like any other: execFileSync throws ENOENT, which names it.
function run(program: string, args: readonly string[]): string {
  return execFileSync(program, args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
}

export function oneSpaced(text: string): string {
  return text.normalize('NFC').replace(/\s+/g, ' ');
}

export function readBack(bytes: Uint8Array): ReadBack {
  const file = tempFile('paper.pdf');
  writeFileSync(file, bytes);
  // Each page ends in a form feed.
  const pages = run('pdftotext', ['-layout', file, '-']).split('\f').slice(0, -1);
  return { file, pages, text: oneSpaced(pages.join(' ')) };
}

interface Place {
  readonly page: number;
  /** In points from the top left. */
  readonly part: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

/** The words that lie wholly within a part of a page, as pdftotext places them. */
export function wordsIn(back: ReadBack, { page, part }: Place): string {
  const within = boxesOf(back, page).filter(
    ({ x0, y0, x1, y1 }) => x0 >= part.x && x1 <= part.x + part.width && y0 >= part.y && y1 <= part.y + part.height,
  );
  return within.map(({ word }) => word).join(' ');
}

interface WordBox {
  readonly word: string;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const boxes = new Map<string, readonly (readonly WordBox[])[]>();

function boxesOf({ file }: ReadBack, page: number): readonly WordBox[] {
  const known = boxes.get(file) ?? readBoxes(file);
  boxes.set(file, known);
  return known[page - 1] ?? [];
}

const WORD = /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)<\/word>/g;
const ENTITIES: Readonly<Record<string, string>> = { '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"' };

function readBoxes(file: string): WordBox[][] {
  const pages = run('pdftotext', ['-bbox', file, '-']).split('<page ').slice(1);
  return pages.map((text) =>
    [...text.matchAll(WORD)].map(([, x0 = '', y0 = '', x1 = '', y1 = '', word = '']) => ({
      word: word.replace(/&\w+;/g, (entity) => ENTITIES[entity] ?? entity),
      ...{ x0: Number(x0), y0: Number(y0), x1: Number(x1), y1: Number(y1) },
    })),
  );
}

/** How far down each page is filled, as a part of its height: the lowest word above the rule of the foot. */
export function filledTo(back: ReadBack, height: number): number[] {
  return back.pages.map((_, at) => {
    const ends = boxesOf(back, at + 1).map(({ y1 }) => y1);
    return Math.max(0, ...ends.filter((y) => y < height - FOOT)) / height;
  });
}

/** What the foot of a page takes, in points. */
const FOOT = 42;

/** The smallest type on any page that a word of this kind is set in: the height of its box, in points. */
export function lowestOf(back: ReadBack, kind: RegExp): number {
  const own = back.pages.flatMap((_, at) => boxesOf(back, at + 1).filter(({ word }) => kind.test(word)));
  return Math.min(...own.map(({ y0, y1 }) => y1 - y0));
}

/** Width and height of every page, in points. */
export function pageSizes({ file, pages }: ReadBack): string[] {
  const info = run('pdfinfo', ['-f', '1', '-l', String(pages.length), file]);
  return [...info.matchAll(/^Page +\d+ size: +([\d.]+ x [\d.]+) pts/gm)].map(([, size]) => size ?? '');
}

/** What qpdf has to say of the file; it ends with an error, and so do we, where something is wrong. */
export function checked({ file }: ReadBack): string {
  return run('qpdf', ['--check', file]);
}

/** The fonts as pdffonts lists them: name, and whether it is embedded and carries its Unicode. */
export function fonts({ file }: ReadBack): { name: string; embedded: boolean; unicode: boolean }[] {
  const [, , ...rows] = run('pdffonts', [file]).trimEnd().split('\n');
  return rows.map((row) => {
    const flags = row.trimEnd().split(/\s+/).slice(-5, -2);
    return { name: row.split(' ')[0] ?? '', embedded: flags[0] === 'yes', unicode: flags[2] === 'yes' };
  });
}

/** The words of a PDF with their places, as poppler's pdftotext reads them: what the bare library is given to set. */
import { spawnSync } from 'node:child_process';

/** Left edge, top and height of the letters' box in points from the top left corner of the page, and the word. */
export type PlacedWord = readonly [left: number, top: number, height: number, word: string];

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", '#39': "'" };

/** The words of each page. Throws where pdftotext cannot read the file. */
export function wordsOf(file: string): PlacedWord[][] {
  const read = spawnSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8', maxBuffer: 2 ** 30 });
  if (read.status !== 0) throw new Error(`pdftotext cannot read ${file}: ${read.error?.message ?? read.stderr}`);
  return read.stdout
    .split('<page ')
    .slice(1)
    .map((page) => [...page.matchAll(WORD)].map(placed));
}

const WORD = /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="[\d.-]+" yMax="([\d.-]+)">(.*?)<\/word>/g;

function placed([, left = '', top = '', bottom = '', text = '']: RegExpExecArray | string[]): PlacedWord {
  const [x, y, end] = [left, top, bottom].map((figure) => Number.parseFloat(figure)) as [number, number, number];
  return [x, y, end - y, text.replace(/&(#?\w+);/g, (whole, name: string) => ENTITIES[name] ?? whole)];
}

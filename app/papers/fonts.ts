/**
 * The one typeface of the papers. The fonts built into every PDF reader drop letters without a word, so a whole
 * font is embedded: Latin with all its marks, Greek, Cyrillic, Armenian, Georgian, Hebrew, Arabic and more.
 * Its figures all have one width, so that columns of money stand under each other.
 */
import { createRequire } from 'node:module';
import { Font } from '@react-pdf/renderer';

export const FAMILY = 'DejaVu Sans Condensed';

const WEIGHTS = [
  { fontWeight: 400, file: 'DejaVuSansCondensed.ttf' },
  { fontWeight: 700, file: 'DejaVuSansCondensed-Bold.ttf' },
] as const;

/** Says whether the typeface has a letter, given as its Unicode code point. */
export type HasLetter = (codePoint: number) => boolean;

/** What we use of a font that the renderer has read. */
interface ReadFont {
  readonly characterSet: readonly number[];
  glyphForCodePoint(codePoint: number): unknown;
}

let loaded: Promise<HasLetter> | undefined;

/** Makes the typeface known to the renderer, once; gives what it has. */
export function loadFonts(): Promise<HasLetter> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<HasLetter> {
  const { resolve } = createRequire(import.meta.url);
  const fonts = WEIGHTS.map(({ fontWeight, file }) => ({ fontWeight, src: resolve(`dejavu-fonts-ttf/ttf/${file}`) }));
  Font.register({ family: FAMILY, fonts });
  Font.registerHyphenationCallback(breakWord);
  const read = await Promise.all(WEIGHTS.map(({ fontWeight }) => readFont(fontWeight)));
  for (const font of read) nameAllGlyphs(font);
  const sets = read.map(({ characterSet }) => new Set(characterSet));
  return (codePoint) => sets.every((set) => set.has(codePoint));
}

async function readFont(fontWeight: 400 | 700): Promise<ReadFont> {
  const descriptor = { fontFamily: FAMILY, fontWeight };
  await Font.load(descriptor);
  const data = Font.getFont(descriptor).data as ReadFont | null;
  if (!data) throw new Error(`The typeface ${FAMILY} of weight ${fontWeight} could not be read.`);
  return data;
}

// Ligatures and the shapes that Arabic letters take within a word: their glyphs stand for the letters they are made of.
const SHAPES = [
  [0xfb00, 0xfdff],
  [0xfe70, 0xfeff],
] as const;

/**
 * Asks for the glyph of every letter once. The font reader keeps the glyph it gave first, and the one it gives as a
 * part of another (the Z of Ż) stands for no letter: a Zoë after a Żak would then be printed without her Z.
 */
function nameAllGlyphs(font: ReadFont): void {
  for (const codePoint of font.characterSet) {
    if (!SHAPES.some(([from, to]) => codePoint >= from && codePoint <= to)) font.glyphForCodePoint(codePoint);
  }
}

const LONGEST_WORD = 20;
const PIECE = new RegExp(`.{1,${LONGEST_WORD / 2}}`, 'gu');

/** A name or a figure is never divided, save one so long that it would run out of its column. */
function breakWord(word: string): string[] {
  return word.length <= LONGEST_WORD ? [word] : (word.match(PIECE) ?? [word]);
}

/**
 * The one typeface of the papers. The fonts built into every PDF reader drop letters without a word, so a whole
 * font is embedded: Latin with all its marks, Greek, Cyrillic, Armenian, Georgian, Hebrew, Arabic and more.
 * Its figures all have one width, so that columns of money stand under each other.
 */
import { createRequire } from 'node:module';
import { Font } from '@react-pdf/renderer';

export const FAMILY = 'DejaVu Sans Condensed';

const LONGEST_WORD = 20;
const PIECE = new RegExp(`.{1,${LONGEST_WORD / 2}}`, 'gu');

/** Makes the typeface known to the renderer; without effect the second time. */
export function registerFonts(): void {
  if (Font.getRegisteredFontFamilies().includes(FAMILY)) return;
  const { resolve } = createRequire(import.meta.url);
  const folder = 'dejavu-fonts-ttf/ttf';
  Font.register({
    family: FAMILY,
    fonts: [
      { src: resolve(`${folder}/DejaVuSansCondensed.ttf`), fontWeight: 400 },
      { src: resolve(`${folder}/DejaVuSansCondensed-Bold.ttf`), fontWeight: 700 },
    ],
  });
  Font.registerHyphenationCallback(breakWord);
}

/** A name or a figure is never divided, save one so long that it would run out of its column. */
function breakWord(word: string): string[] {
  return word.length <= LONGEST_WORD ? [word] : (word.match(PIECE) ?? [word]);
}

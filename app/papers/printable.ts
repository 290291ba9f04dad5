/** Keeps a letter that the typeface lacks from being printed as another one: it stands as U+FFFD, for all to see. */
import type { HasLetter } from './fonts.ts';
import type { PaperHead } from './paper.ts';

const MISSING = '\u{fffd}';
const MISSING_REMARK = `A letter that this paper’s typeface lacks stands as ${MISSING}.`;

/** The paper with letters that can be printed, and a remark where one could not. */
export function printable<T extends PaperHead>(sheet: T, has: HasLetter): T {
  let missed = false;
  const shown = everyText(sheet, (text) => {
    const own = onlyLetters(text, has);
    missed ||= own.includes(MISSING);
    return own;
  });
  return missed ? { ...shown, remarks: [...shown.remarks, MISSING_REMARK] } : shown;
}

function onlyLetters(text: string, has: HasLetter): string {
  return text.replace(/./gsu, (letter) => {
    if (has(letter.codePointAt(0) ?? 0)) return letter;
    // A joiner or a variation selector says how its neighbours look, and is nothing itself.
    return /\p{Default_Ignorable_Code_Point}/u.test(letter) ? '' : MISSING;
  });
}

/** The same plain JSON with each text in it changed. */
function everyText<T>(value: T, change: (text: string) => string): T {
  const walk = (part: unknown): unknown => {
    if (typeof part === 'string') return change(part);
    if (Array.isArray(part)) return part.map(walk);
    if (part === null || typeof part !== 'object') return part;
    return Object.fromEntries(Object.entries(part).map(([key, one]) => [key, walk(one)]));
  };
  return walk(value) as T;
}

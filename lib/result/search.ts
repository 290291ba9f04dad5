/** Finding one of a few choices by the letters somebody types at the table: goods, sizes, grades, sections. */

/** Lower comes first. Undefined where the choice does not fit what was typed. */
function rank(folded: string, typed: string): number | undefined {
  if (folded === typed) return 0;
  if (folded.startsWith(typed)) return 1;
  if (folded.split(/[\s,-]+/).some((word) => word.startsWith(typed))) return 2;
  return folded.includes(typed) ? 3 : undefined;
}

/**
 * The choices that fit what was typed: the same text first, then those that begin with it, those with a word that
 * begins with it, those that hold it. Everything in its own order where nothing was typed.
 */
export function findChoices<T>(typed: string, choices: readonly T[], nameOf: (choice: T) => string): T[] {
  const wanted = foldName(typed);
  if (wanted === '') return [...choices];
  return choices
    .map((choice) => ({ choice, rank: rank(foldName(nameOf(choice)), wanted) }))
    .filter((found): found is { choice: T; rank: number } => found.rank !== undefined)
    .sort((a, b) => a.rank - b.rank)
    .map(({ choice }) => choice);
}

/** The same for short lists of words, where a digit that begins no word stands for the word at that place: `2` is II. */
export function findWords(typed: string, words: readonly string[]): string[] {
  const wanted = foldName(typed);
  const fitting = findChoices(typed, words, (word) => word).filter((word) => foldName(word).startsWith(wanted));
  if (fitting.length > 0 || !/^[1-9]$/.test(wanted)) return fitting;
  return words.slice(Number.parseInt(wanted, 10) - 1, Number.parseInt(wanted, 10));
}

/** Finding a seller number or a buyer in a long list: by the number, or by any part of the name. */
export interface FoundParty {
  readonly number: number;
  readonly names: readonly string[];
}

/** Those that fit what was typed, in their order: the one of this number, else those of whose names every word is a part. */
export function partiesFound<T>(rows: readonly T[], typed: string, partyOf: (row: T) => FoundParty): readonly T[] {
  const words = foldName(typed).split(' ').filter(Boolean);
  if (words.length === 0) return rows;
  const [first = ''] = words;
  if (words.length === 1 && /^\d+$/.test(first)) {
    const number = first.replace(/^0+(?=\d)/, '');
    const own = rows.filter((row) => String(partyOf(row).number) === number);
    if (own.length > 0) return own;
  }
  return rows.filter((row) => {
    const names = foldName(partyOf(row).names.join(' '));
    return words.every((word) => names.includes(word));
  });
}

/** A long list a page at a time: whoever works with it reads a hundred lines, and nobody waits for five thousand. */
export const ROWS_A_PAGE = 100;

export interface PageOf<T> {
  readonly rows: readonly T[];
  /** Of which page, from 1, of how many; 1 of 1 where there is nothing. */
  readonly page: number;
  readonly pages: number;
  /** The place of the first and the last row in the whole list, from 1; both 0 where there is none. */
  readonly first: number;
  readonly last: number;
  readonly all: number;
}

/** The page that an address asks for. A word that is no page is the first, and one beyond the end the last. */
export function pageOf<T>(rows: readonly T[], asked: string | undefined, most = ROWS_A_PAGE): PageOf<T> {
  const pages = Math.max(1, Math.ceil(rows.length / most));
  const wanted = /^[1-9]\d{0,6}$/.test(asked ?? '') ? Number.parseInt(asked ?? '', 10) : 1;
  const page = Math.min(wanted, pages);
  const from = (page - 1) * most;
  const shown = rows.slice(from, from + most);
  const place = shown.length === 0 ? { first: 0, last: 0 } : { first: from + 1, last: from + shown.length };
  return { rows: shown, page, pages, ...place, all: rows.length };
}

/** Letters that Unicode does not take apart into a base letter and a mark, as people type them without a mark. */
const WHOLE_LETTERS: Readonly<Record<string, string>> = {
  ł: 'l',
  ø: 'o',
  æ: 'ae',
  œ: 'oe',
  ß: 'ss',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
  ħ: 'h',
  ŧ: 't',
};

/** A name as somebody in a hurry types it: lower case, without diacritics, single spaces. For finding only. */
export function foldName(name: string): string {
  const bare = name.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');
  return bare
    .replace(/[łøæœßđðþıħŧ]/g, (letter) => WHOLE_LETTERS[letter] ?? letter)
    .replace(/\s+/g, ' ')
    .trim();
}

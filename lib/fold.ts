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

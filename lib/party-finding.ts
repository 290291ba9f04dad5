/** Finding a seller number or a buyer in a long list: by the number, or by any part of the name. */
import { foldName } from '#lib/fold.ts';

export interface Party {
  readonly number: number;
  readonly names: readonly string[];
}

/** Those that fit what was typed, in their order: the one of this number, else those of whose names every word is a part. */
export function partiesFound<T>(rows: readonly T[], typed: string, partyOf: (row: T) => Party): readonly T[] {
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

/** The officer's roll of export tags: numbers run on through a season and are never given twice. */
import type { Chance } from './chance.ts';
import type { ExportTag } from './lots.ts';

const CODES: Readonly<Record<string, string>> = { bobcat: 'BOB', otter: 'OTT' };

export interface TagRoll {
  /** So many tags for goods that need them, none for others. */
  next(goods: string, pieces: number, state?: string): ExportTag[];
}

/** A roll for one season; gaps between trappers are the officer's other customers. */
export function tagRoll(year: string, chance: Chance): TagRoll {
  const last = new Map<string, number>();
  return {
    next: (goods, pieces, state = 'MT') => {
      const code = CODES[goods];
      if (code === undefined) return [];
      const head = `US-CITES ${state} ${code} ${year}`;
      const first = (last.get(head) ?? 100) + chance.between(1, 9);
      last.set(head, first + pieces - 1);
      return Array.from({ length: pieces }, (_, place) => ({
        tag: `${head} ${String(first + place).padStart(6, '0')}`,
        condition: 'intact',
      }));
    },
  };
}

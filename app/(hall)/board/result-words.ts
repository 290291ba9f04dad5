import type { BoardResult } from '#db/outcome/board-view.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';

/** What a lot brought, in few words: `13.25 each`, `no-sale`. */
export function resultWords({ kind, price, standsFor }: BoardResult): string {
  if (kind === 'sold') return `${price} ${standsFor}`;
  return OUTCOME_WORDS[kind];
}

import type { BoardResult } from '#db/outcome/board-view.ts';

/** What a lot brought, in few words: `13.25 each`, `no-sale`. */
export function resultWords({ kind, price, standsFor }: BoardResult): string {
  if (kind === 'sold') return `${price} ${standsFor}`;
  return kind === 'passed' ? 'no-sale' : 'withdrawn';
}

import type { CalledLot } from '#db/queries/called-lots.ts';
import { showMoney } from '#lib/money.ts';

/** How a lot came out, in words: `sold at 13.25 to buyer 12`, `no-sale`, `withdrawn`. */
export function outcomeWords({
  kind,
  priceCents,
  buyerNo,
}: Pick<CalledLot, 'kind' | 'priceCents' | 'buyerNo'>): string {
  if (kind === 'sold' && priceCents !== null) return `sold at ${showMoney(priceCents)} to buyer ${buyerNo}`;
  return kind === 'passed' ? 'no-sale' : 'withdrawn';
}

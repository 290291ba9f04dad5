/** Several lot numbers in one field, as they are typed on a numeric keypad: `12+15+18`, or with commas or spaces. */
import { type LotNo, parseLotNo } from '#lib/lot-number.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

const MOST = 50;

/** Reads at least two different lot numbers, in the order typed. The field of a refusal is `lots`. */
export function parseLotList(text: string): Result<LotNo[]> {
  const words = text.split(/[\s,+]+/).filter((word) => word !== '');
  if (words.length < 2) return refuse('missing', 'Enter at least two lot numbers with a plus between: 12+15.', 'lots');
  if (words.length > MOST) return refuse('too_large', `Enter at most ${MOST} lots at once.`, 'lots');
  const lots: LotNo[] = [];
  for (const word of words) {
    const lot = parseLotNo(word);
    if (!lot.ok) return { ...lot, message: `${word}: ${lot.message}`, field: 'lots' };
    if (lots.includes(lot.value))
      return refuse('malformed', `Lot ${lot.value} stands there twice: take one out.`, 'lots');
    lots.push(lot.value);
  }
  return accept(lots);
}

/** Lot numbers, a letter behind them where a lot was divided (12, 12A, 12B), and the text of the codes on a ticket. */

import { accept, firstMistake, type Mistake, type Result, refuse } from '#lib/result/result.ts';
import { TICKET } from './ticket.ts';

declare const lotNoBrand: unique symbol;
/** `12` or `12A`: 1 to 99999 without leading zeros, then at most one capital letter. */
export type LotNo = string & { readonly [lotNoBrand]: true };

const MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter the lot number, such as 12 or 12A.' },
  {
    when: /^(?!\d+[A-Za-z]?$)/,
    say: 'Enter the lot number as digits, with one letter behind a divided lot: 12 or 12A.',
  },
  { when: /^0+[A-Za-z]?$/, say: 'Lot numbers begin at 1: enter the number on the ticket.' },
  { when: /^0*\d{6,}[A-Za-z]?$/, code: 'too_large', say: 'Lot numbers end at 99999: enter the number on the ticket.' },
];

/** Reads a lot number; the letter's case and leading zeros do not matter. */
export function parseLotNo(text: string): Result<LotNo> {
  return firstMistake(MISTAKES, text) ?? accept(text.replace(/^0+/, '').toUpperCase() as LotNo);
}

/** A lot number known to be good. Throws a RangeError for any other text. */
export function lotNo(text: string): LotNo {
  const result = parseLotNo(text);
  if (!result.ok) throw new RangeError(`${text}: ${result.message}`);
  return result.value;
}

export function splitLotNo(lot: LotNo): { number: number; letter: string } {
  const number = Number.parseInt(lot, 10);
  return { number, letter: lot.slice(String(number).length) };
}

/** Orders by the whole number, then by the letter: 2, 12, 12A, 12B. */
export function compareLotNo(a: LotNo, b: LotNo): number {
  const number = Number.parseInt(a, 10) - Number.parseInt(b, 10);
  if (number !== 0 || a === b) return number;
  return a < b ? -1 : 1;
}

/** The next free letter behind a number when a lot is divided, given the lot numbers in use. */
export function nextLetter(number: number, inUse: Iterable<LotNo>): Result<string> {
  let last = '@';
  for (const lot of inUse) {
    const split = splitLotNo(lot);
    if (split.number === number && split.letter > last) last = split.letter;
  }
  if (last === 'Z') return refuse('too_large', `Lot ${number} is divided as far as Z: give the rest a new lot number.`);
  return accept(String.fromCharCode(last.charCodeAt(0) + 1));
}

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

/** The lot that a person typed, as in `12A`, or scanned off its ticket; a ticket of another sale is refused. */
export function readLot(text: string, saleId: number): Result<LotNo> {
  const scanned = TICKET.exec(text.trim());
  if (!scanned) return parseLotNo(text);
  const [, sale = '', lot = ''] = scanned;
  if (Number.parseInt(sale, 10) !== saleId) {
    const message = `This ticket is of another sale: look up lot ${lot.toUpperCase()} by its seller, and put this sale’s ticket on it.`;
    return refuse('unknown', message, 'lotNo');
  }
  return parseLotNo(lot);
}

/** Which lot a person means: by its number, or by its ticket. */

import { type Result, refuse } from '#lib/result/result.ts';
import { type LotNo, parseLotNo } from './number.ts';

/**
 * What the two codes on a lot's ticket say: `S4LOT12A` is lot 12A of the sale that the book knows as 4. Digits and
 * capital letters only, which a scanner types the same on every layout that keeps the letters S, L, O and T in their
 * places, and which both Code 128 and the short alphanumeric mode of QR take. The sale is named because a piece that
 * went home unsold comes back next year with last year's ticket still on it.
 */
const TICKET = /^S(\d{1,9})LOT(\d+[A-Z]?)$/i;

export function ticketText(saleId: number, lotNo: LotNo): string {
  return `S${saleId}LOT${lotNo}`;
}

/** Whether a text was read off a ticket and not typed as a name, a price or a number. Blanks around it do not matter. */
export function isTicketText(text: string): boolean {
  return TICKET.test(text.trim());
}

/** The lot that a person typed, as in `12A`, or scanned off its ticket; a ticket of another sale is refused. */
export function readLot(text: string, saleId: number): Result<LotNo> {
  const scanned = TICKET.exec(text.trim());
  if (!scanned) return parseLotNo(text);
  const [, sale = '', lot = ''] = scanned;
  if (Number.parseInt(sale, 10) !== saleId) {
    return refuse(
      'unknown',
      `This ticket is of another sale: look up lot ${lot.toUpperCase()} by its seller, and put this sale’s ticket on it.`,
      'lotNo',
    );
  }
  return parseLotNo(lot);
}

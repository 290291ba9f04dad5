/** The text on a lot's ticket. Apart from lot numbers, because the Block loads this first and those only behind it. */

/**
 * What the two codes on a lot's ticket say: `S4LOT12A` is lot 12A of the sale that the book knows as 4. Digits and
 * capital letters only, which a scanner types the same on every layout that keeps the letters S, L, O and T in their
 * places, and which both Code 128 and the short alphanumeric mode of QR take. The sale is named because a piece that
 * went home unsold comes back next year with last year's ticket still on it.
 */
export const TICKET = /^S(\d{1,9})LOT(\d+[A-Z]?)$/i;

export function ticketText(saleId: number, lotNo: string): string {
  return `S${saleId}LOT${lotNo}`;
}

/** Whether a text was read off a ticket and not typed as a name, a price or a number. Blanks around it do not matter. */
export function isTicketText(text: string): boolean {
  return TICKET.test(text.trim());
}

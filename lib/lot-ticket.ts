/** Which lot a person means: by its number, or by its ticket. */
import { type LotNo, parseLotNo } from '#lib/lot-number.ts';
import { type Result, refuse } from '#lib/result.ts';
import { TICKET } from '#lib/ticket-text.ts';

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

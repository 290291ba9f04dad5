import { type LotNo, lotNo } from '#lib/lot-number.ts';

/**
 * The number on the ticket, from the two columns that the book keeps it in for sorting. A whole sale may have a hundred
 * thousand of them: those that are plainly good are not spelled out and read again. Throws for any other.
 */
export function lotNoOf({ lotNumber, lotLetter }: { readonly lotNumber: number; readonly lotLetter: string }): LotNo {
  const text = `${lotNumber}${lotLetter}`;
  const plain = Number.isInteger(lotNumber) && lotNumber >= 1 && lotNumber <= 99_999;
  return plain && (lotLetter === '' || LETTER.test(lotLetter)) ? (text as LotNo) : lotNo(text);
}

const LETTER = /^[A-Z]$/;

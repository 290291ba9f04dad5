import { type LotNo, lotNo } from '#lib/lot-number.ts';

/** The number on the ticket, from the two columns that the book keeps it in for sorting. */
export function lotNoOf(row: { readonly lotNumber: number; readonly lotLetter: string }): LotNo {
  return lotNo(`${row.lotNumber}${row.lotLetter}`);
}

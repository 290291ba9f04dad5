/** The lots of a sale in the order in which they come up, as a list for the hall. No minimums: those stand on the tickets. */
import { lotDetails } from '#lib/lot/details.ts';
import { quantityInWords } from '#lib/lot-words.ts';
import type { PaperGround, PaperLot } from '#lib/paper/facts.ts';
import { cell, type ListPaper, listPaper } from '#lib/paper/list.ts';
import { countWords, goodsWords, outcomeWords } from '#lib/paper/lot-words.ts';
import { clean, joined } from '#lib/sheet/spell.ts';

export function saleList(ground: PaperGround, lots: readonly PaperLot[]): ListPaper {
  const rows = lots.map((lot) => [
    cell(lot.lotNo),
    cell(goodsWords(lot), clean(lot.note)),
    cell(lotDetails('list', lot)),
    cell(quantityInWords(lot)),
    cell(String(lot.sellerNo)),
    cell(remarkOf(lot)),
  ]);
  return listPaper(ground, {
    title: 'Sale list',
    opening: [
      'The lots in the order in which they come up. A seller who is not ready is skipped and comes at the end.',
    ],
    tables: [
      {
        title: '',
        columns: [
          { kind: 'lot', words: 'Lot' },
          { kind: 'goods', words: 'Goods' },
          { kind: 'words', words: 'Size, grade, section' },
          { kind: 'quantity', words: 'Quantity' },
          { kind: 'number', words: 'Seller' },
          { kind: 'words', words: 'Remark' },
        ],
        rows,
        none: 'No lot has been checked in yet.',
        sum: lots.length === 0 ? '' : countWords(lots.length, 'lot'),
      },
    ],
  });
}

/** What a reader should know before the lot is called; a called lot says what became of it. */
function remarkOf(lot: PaperLot): string {
  const { holds, withoutReserve, donated } = lot;
  if (lot.outcome) return outcomeWords(lot);
  return joined(
    [holds.length > 0 ? 'on hold' : '', withoutReserve ? 'without reserve' : '', donated ? 'donated' : ''],
    ', ',
  );
}

/** What the lots brought, to pin on the wall: by lot number, with buyer numbers and no names. */
import { lotDetails } from '#lib/lot/details.ts';
import { byNumber, countWords, goodsWords, outcomeWords, quantityInWords } from '#lib/lot/words.ts';
import { showMoney } from '#lib/money/money.ts';
import { clean, joined, priceFor } from '#lib/settlement/spelling.ts';
import type { PaperGround, PaperLot } from './facts.ts';
import { cell, type ListCell, type ListPaper, listPaper } from './list.ts';

export function resultsSheet(ground: PaperGround, lots: readonly PaperLot[]): ListPaper {
  const called = byNumber(lots.filter(({ outcome }) => outcome !== null));
  const sold = called.filter(({ outcome }) => outcome?.kind === 'sold').length;
  return listPaper(ground, {
    title: 'Results',
    tables: [
      {
        title: '',
        columns: [
          { kind: 'lot', words: 'Lot' },
          { kind: 'goods', words: 'Goods' },
          { kind: 'words', words: 'Size, grade, section' },
          { kind: 'quantity', words: 'Quantity' },
          { kind: 'price', words: 'Price' },
          { kind: 'money', words: 'Amount' },
          { kind: 'number', words: 'Buyer' },
        ],
        rows: called.map((lot) => [
          cell(lot.lotNo),
          cell(goodsWords(lot)),
          cell(lotDetails('list', lot)),
          cell(quantityInWords(lot)),
          ...resultOf(lot),
        ]),
        none: 'No lot has been called yet.',
        sum: called.length === 0 ? '' : `${countWords(called.length, 'lot')} called, ${sold} sold`,
      },
    ],
  });
}

function resultOf(lot: PaperLot): ListCell[] {
  const { outcome, by } = lot;
  if (outcome === null || outcome.priceCents === null) return [cell(outcomeWords(lot)), cell(''), cell('')];
  const amount = outcome.amountCents === null ? '' : showMoney(outcome.amountCents);
  return [cell(priceFor(outcome.priceCents, by).words), cell(amount), cell(String(outcome.buyerNo ?? ''))];
}

/**
 * The lots of a sale in the order in which they come up, as a list for the hall. No minimums: those stand on the
 * tickets.
 */
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

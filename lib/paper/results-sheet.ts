/** What the lots brought, to pin on the wall: by lot number, with buyer numbers and no names. */

import { lotDetails } from '#lib/lot/details.ts';
import { quantityInWords } from '#lib/lot-words.ts';
import { showMoney } from '#lib/money.ts';
import type { PaperGround, PaperLot } from '#lib/paper/facts.ts';
import { cell, type ListCell, type ListPaper, listPaper } from '#lib/paper/list.ts';
import { byNumber, countWords, goodsWords, outcomeWords } from '#lib/paper/lot-words.ts';
import { priceFor } from '#lib/sheet/spell.ts';

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

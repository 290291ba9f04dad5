/** The seller's receipt at check-in: the lots as they were taken in, their tags, dues and advances, and the sale's terms. */
import { lotDetails } from '#lib/lot/details.ts';
import { byNumber, goodsWords, minimumWords, quantityInWords } from '#lib/lot/words.ts';
import { countWords } from '#lib/result/text.ts';
import { termsInWords } from '#lib/sale/terms.ts';
import { partnersOf, type SellerFile, settlementMembership } from '#lib/settlement/parties.ts';
import { membershipOf } from '#lib/settlement/settlement.ts';
import { chargeOf } from '#lib/settlement/sheet.ts';
import { clean } from '#lib/settlement/spelling.ts';
import { tagRanges } from '#lib/tag/list.ts';
import type { PaperContext, PaperLot } from './facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, NO_ADVICE, tableOf } from './list.ts';

const HOW = { deducted: 'taken off the settlement', cash: 'paid in cash' } as const;

/** `code` is the one by which the seller follows these lots on the Board. */
export function receipt(
  context: PaperContext,
  file: SellerFile,
  { lots, code }: { readonly lots: readonly PaperLot[]; readonly code: string },
): ListPaper {
  const { seller, sale } = file;
  const partners = partnersOf(file);
  const membership = settlementMembership(membershipOf(seller, sale.heldOn), partners.length);
  return listPaper(context, {
    title: 'Receipt of goods',
    number: { label: 'Seller', words: String(seller.sellerNo) },
    parties: partners.map(({ name, address, member, licence }) => ({
      title: name,
      sentences: [...address, member, licence].filter((line) => line !== ''),
    })),
    opening: [
      membership,
      'These goods were taken in for the sale as they stand here. Please read it through before you sign.',
      `While bidding is open, follow these lots on a phone at /board/seller with the code ${code}.`,
    ],
    tables: [lotsTable(byNumber(lots)), ...chargesTable(file)],
    closing: [{ title: 'Terms of this sale', sentences: termsInWords(sale, file.goods).map(clean) }],
    signatures: ['Seller, or who brought the goods', 'Taken in by'],
    caution: NO_ADVICE,
  });
}

function lotsTable(lots: readonly PaperLot[]): ListTable {
  const goods = (lot: PaperLot) =>
    cell(goodsWords(lot), lotDetails('list', lot), clean(lot.note), ...remarks(lot), ...tagRanges(lot.tags));
  return tableOf(
    lots,
    [
      ['lot', 'Lot', ({ lotNo }) => lotNo],
      ['goods', 'Goods and export tags', goods],
      ['quantity', 'Quantity', quantityInWords],
      ['words', 'Minimum', minimumWords],
    ],
    { title: 'Lots', none: 'No lot has been taken in yet.', sum: lots.length === 0 ? '' : sumInWords(lots) },
  );
}

function remarks({ donated, holds }: PaperLot): string[] {
  return [...(donated ? ['donated to the association'] : []), ...holds.map((hold) => `On hold. ${hold}`)];
}

/** The lots, and the pieces where every lot has them counted. */
function sumInWords(lots: readonly PaperLot[]): string {
  const counts = lots.map(({ count }) => count);
  const known = counts.filter((count) => count !== null);
  const pieces = known.reduce((so, count) => so + count, 0);
  const words = countWords(lots.length, 'lot');
  return known.length === counts.length ? `${words}, ${countWords(pieces, 'piece')}` : words;
}

function chargesTable({ charges }: SellerFile): ListTable[] {
  if (charges.length === 0) return [];
  const table = tableOf(
    charges.map(chargeOf),
    [
      ['goods', 'What', ({ label }) => label],
      ['words', 'How', ({ how }) => HOW[how]],
      ['money', 'Amount', ({ amount }) => amount.words],
    ],
    { title: 'Dues and other charges' },
  );
  return [table];
}

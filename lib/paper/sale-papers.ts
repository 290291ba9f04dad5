/** The lists of a sale that hang in the hall or lie on the officer's table. */
import { lotDetails } from '#lib/lot/details.ts';
import { byNumber, goodsWords, lotOutcomeWords, quantityInWords } from '#lib/lot/words.ts';
import { showMoney } from '#lib/money/money.ts';
import { countWords } from '#lib/result/text.ts';
import { partnersOf, type SellerFile } from '#lib/settlement/parties.ts';
import { clean, joined, priceFor } from '#lib/settlement/spelling.ts';
import { tagRanges } from '#lib/tag/list.ts';
import type { PaperContext, PaperLot } from './facts.ts';
import { BLANK, cell, type ListPaper, type ListTable, listPaper, NO_ADVICE, tableOf } from './list.ts';

/** The lots in the order in which they come up. No minimums: those stand on the tickets. */
export function saleList(context: PaperContext, lots: readonly PaperLot[]): ListPaper {
  return listPaper(context, {
    title: 'Sale list',
    opening: [
      context.phase ??
        'The lots in the order in which they come up. A seller who is not ready is skipped and comes at the end.',
    ],
    tables: [
      tableOf(
        lots,
        [
          ['lot', 'Lot', ({ lotNo }) => lotNo],
          ['goods', 'Goods', (lot) => cell(goodsWords(lot), clean(lot.note))],
          ['words', 'Size, grade, section', (lot) => lotDetails('list', lot)],
          ['quantity', 'Quantity', quantityInWords],
          ['number', 'Seller', ({ sellerNo }) => String(sellerNo)],
          ['words', 'Remark', remarkOf],
        ],
        { none: 'No lot has been checked in yet.', sum: lots.length === 0 ? '' : countWords(lots.length, 'lot') },
      ),
    ],
  });
}

/** What a reader should know before the lot is called; a called lot says what became of it. */
function remarkOf(lot: PaperLot): string {
  const { holds, withoutReserve, donated } = lot;
  if (lot.outcome) return lotOutcomeWords(lot);
  const hold = holds.length > 0 ? 'on hold' : '';
  return joined([hold, withoutReserve ? 'without reserve' : '', donated ? 'donated' : ''], ', ');
}

/** What the lots brought, to pin on the wall: by lot number, with buyer numbers and no names. */
export function resultsSheet(context: PaperContext, lots: readonly PaperLot[]): ListPaper {
  const called = byNumber(lots.filter(({ outcome }) => outcome !== null));
  const sold = called.filter(({ outcome }) => outcome?.kind === 'sold').length;
  return listPaper(context, {
    title: 'Results',
    opening: context.phase === undefined ? [] : [context.phase],
    tables: [
      tableOf(
        called,
        [
          ['lot', 'Lot', ({ lotNo }) => lotNo],
          ['goods', 'Goods', goodsWords],
          ['words', 'Size, grade, section', (lot) => lotDetails('list', lot)],
          ['quantity', 'Quantity', quantityInWords],
          ['price', 'Price', priceWords],
          ['money', 'Amount', amountWords],
          ['number', 'Buyer', ({ outcome }) => (outcome?.kind === 'sold' ? String(outcome.buyerNo ?? '') : '')],
        ],
        {
          none: 'No lot has been called yet.',
          sum: called.length === 0 ? '' : `${countWords(called.length, 'lot')} called, ${sold} sold`,
        },
      ),
    ],
  });
}

/** The price of a sold lot, and of another what became of it. */
function priceWords(lot: PaperLot): string {
  const price = lot.outcome?.kind === 'sold' ? lot.outcome.priceCents : null;
  return price === null ? lotOutcomeWords(lot) : priceFor(price, lot.by).words;
}

function amountWords({ outcome }: PaperLot): string {
  return outcome?.kind !== 'sold' || outcome.amountCents === null ? '' : showMoney(outcome.amountCents);
}

/**
 * The list of the agency officer's table: every lot that takes export tags with its tags, and what is still missing.
 * `files` are those of every seller number that has such a lot.
 */
export function officerList(context: PaperContext, lots: readonly PaperLot[], files: readonly SellerFile[]): ListPaper {
  const tagged = byNumber(lots.filter(({ exportTag }) => exportTag));
  const sellers = new Map(files.map((file) => [file.seller.sellerNo, sellerWords(file)]));
  return listPaper(context, {
    title: 'Tag list',
    opening: [
      'Tags and licences are the wildlife agency’s to judge: this list says only what was entered at the check-in table.',
    ],
    tables: [holdsTable(tagged), tagsTable(tagged, sellers)],
    signatures: ['Officer', 'Date and time'],
    caution: NO_ADVICE,
  });
}

function holdsTable(tagged: readonly PaperLot[]): ListTable {
  const held = tagged.filter(({ holds }) => holds.length > 0);
  return tableOf(
    held,
    [
      ['lot', 'Lot', ({ lotNo }) => lotNo],
      ['goods', 'Goods', (lot) => cell(goodsWords(lot), quantityInWords(lot))],
      ['number', 'Seller', ({ sellerNo }) => String(sellerNo)],
      ['words', 'What is missing or wrong', ({ holds }) => cell('', ...holds)],
      ['tick', 'Mended', () => BLANK],
    ],
    {
      title: 'Lots on hold: not put up until this is mended',
      none: 'No lot is on hold.',
      sum: held.length === 0 ? '' : `${countWords(held.length, 'lot')} on hold`,
    },
  );
}

function tagsTable(tagged: readonly PaperLot[], sellers: ReadonlyMap<number, readonly string[]>): ListTable {
  const tags = tagged.reduce((so, lot) => so + lot.tags.length, 0);
  const words = (lot: PaperLot) => cell('', ...(sellers.get(lot.sellerNo) ?? []), ...tagsInLines(lot));
  return tableOf(
    tagged,
    [
      ['lot', 'Lot', ({ lotNo }) => lotNo],
      ['goods', 'Goods', (lot) => cell(goodsWords(lot), lotDetails('officer', lot), quantityInWords(lot))],
      ['number', 'Seller', ({ sellerNo }) => String(sellerNo)],
      ['words', 'Seller and licence, export tags', words],
      ['tick', 'Seen', () => BLANK],
    ],
    {
      title: 'Lots that take export tags',
      none: 'No lot takes export tags.',
      sum: tagged.length === 0 ? '' : `${countWords(tagged.length, 'lot')}, ${countWords(tags, 'export tag')}`,
    },
  );
}

function tagsInLines({ tags }: PaperLot): string[] {
  return tags.length === 0 ? ['no tag entered'] : [`${countWords(tags.length, 'tag')}:`, ...tagRanges(tags)];
}

function sellerWords(file: SellerFile): string[] {
  return partnersOf(file).map(({ name, licence }) => `${name}: ${licence === '' ? 'no licence on record' : licence}`);
}

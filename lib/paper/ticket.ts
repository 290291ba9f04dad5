/** The ticket that lies on a lot: every word on it, and the text of its two codes. */
import { lotDetails } from '#lib/lot/details.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { quantityInWords } from '#lib/lot-words.ts';
import type { PaperGround, PaperLot } from '#lib/paper/facts.ts';
import { countWords, goodsWords, minimumWords, shortMinimum } from '#lib/paper/lot-words.ts';
import { tagRanges } from '#lib/paper/tag-ranges.ts';
import { clean, dateInWords, joined } from '#lib/sheet/spell.ts';
import { ticketText } from '#lib/ticket-text.ts';

export interface Ticket {
  readonly lotNo: LotNo;
  readonly seller: string;
  readonly goods: string;
  readonly detail: string;
  readonly quantity: string;
  /** `Minimum 25.00 each`, or empty; the long one says the other way of saying it too. */
  readonly minimum: string;
  readonly longMinimum: string;
  /** Size, grade and number of tags in one line, for a narrow place. */
  readonly short: string;
  /** `18 export tags: US-CITES WY BOB 2025 000101 to 000118`, or empty. */
  readonly tagList: string;
  readonly note: string;
  /** `GREEN` or `CARCASS`, or empty for goods that are put up. */
  readonly mark: string;
  /** What to mind with it: in two words, and in sentences. */
  readonly shortCaution: string;
  readonly caution: string;
  readonly sale: string;
  /** What a scanner reads. */
  readonly code: string;
}

/** Where the association has no caution of its own for the goods; its sources stand in docs/cautions.md. */
const GLOVES = 'Wear waterproof gloves; wash hands and tools afterwards.';
const MARKS = { put_up: '', green: 'GREEN', carcass: 'CARCASS' } as const;

export function ticketOf(lot: PaperLot, { saleId, sale }: Pick<PaperGround, 'saleId' | 'sale'>): Ticket {
  const mark = MARKS[lot.form];
  const fresh = mark !== '';
  const own = clean(lot.caution);
  const tagCount = lot.tags.length === 0 ? '' : countWords(lot.tags.length, 'export tag');
  return {
    lotNo: lot.lotNo,
    seller: `Seller ${lot.sellerNo}`,
    goods: goodsWords(lot),
    detail: lotDetails('ticket', lot),
    quantity: quantityInWords(lot),
    minimum: headed('Minimum', shortMinimum(lot)),
    longMinimum: headed('Minimum', minimumWords(lot)),
    short: joined([lotDetails('ticket', lot), tagCount], ' · '),
    tagList: tagCount === '' ? '' : `${tagCount}: ${tagRanges(lot.tags).join(', ')}`,
    note: clean(lot.note),
    mark,
    shortCaution: fresh ? 'wear gloves' : '',
    caution: fresh ? own || GLOVES : '',
    sale: `${clean(sale.name)} · ${dateInWords(sale.heldOn)}`,
    code: ticketText(saleId, lot.lotNo),
  };
}

function headed(head: string, words: string): string {
  if (words === '' || words === 'without reserve') return words;
  return `${head} ${words}`;
}

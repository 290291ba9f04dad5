/** What somebody asks for who prints tickets: whose lots, on which stock, and how the labels lie. */
import { longDate } from '#lib/date/date.ts';
import { lotDetails } from '#lib/lot/details.ts';
import { type LotNo, readLot } from '#lib/lot/number.ts';
import { ticketText } from '#lib/lot/ticket.ts';
import { byNumber, goodsWords, minimumWords, quantityInWords, shortMinimum } from '#lib/lot/words.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';
import { clean, joined } from '#lib/settlement/spelling.ts';
import { tagRanges } from '#lib/tag/list.ts';
import type { PaperContext, PaperLot } from './facts.ts';
import { type Offset, parseOffset, parseStartLabel } from './label-stock.ts';

const STOCKS = ['labels', 'halves', 'alignment'] as const;
/** Sheets of labels, larger tickets two a page, or the page that aligns a printer to the labels. */
type Stock = (typeof STOCKS)[number];

export interface TicketRequest {
  readonly stock: Stock;
  readonly start: number;
  readonly offset: Offset;
}

/** The words of the form or the address, each empty where nothing was typed. */
export type TicketWords = Readonly<Record<'stock' | 'start' | 'right' | 'down', string>>;

/** Reads the request; everything that is wrong is told at once. */
export function readTicketRequest({ stock, start, right, down }: TicketWords): Result<TicketRequest> {
  const known = STOCKS.find((one) => one === (stock || 'labels'));
  const label = atField(parseStartLabel(start), 'start');
  const toRight = atField(parseOffset(right), 'right');
  const toDown = atField(parseOffset(down), 'down');
  const wrong = [known ? null : NO_STOCK, label, toRight, toDown].filter((one): one is Refusal => one?.ok === false);
  const [first, ...also] = wrong;
  if (first) return { ...first, ...(also.length > 0 ? { also } : {}) };
  if (!known || !label.ok || !toRight.ok || !toDown.ok) return NO_STOCK;
  const offset = { rightTenthsMm: toRight.value, downTenthsMm: toDown.value };
  return accept({ stock: known, start: label.value, offset });
}

const NO_STOCK = refuse('malformed', `Choose what to print on: ${STOCKS.join(', ')}.`, 'stock');

function atField<T>(result: Result<T>, field: string): Result<T> {
  return result.ok ? result : { ...result, field };
}

interface Whose {
  readonly saleId: number;
  /** A seller number and a lot number as typed or scanned; empty for all. */
  readonly seller: string;
  readonly lot: string;
}

/** The lots whose tickets are asked for, by lot number as they lie on the shelf: one lot, one seller number's, or all. */
export function lotsAskedFor<T extends Pick<PaperLot, 'lotNo' | 'sellerNo'>>(
  lots: readonly T[],
  { saleId, seller, lot }: Whose,
): Result<T[]> {
  if (lot.trim() !== '') {
    const read = atField(readLot(lot, saleId), 'lot');
    if (!read.ok) return read;
    const found = lots.filter(({ lotNo }) => lotNo === read.value);
    if (found.length > 0) return accept(found);
    return refuse('unknown', `There is no lot ${read.value}: check the number.`, 'lot');
  }
  const sorted = byNumber(lots);
  const whose = seller.trim().replace(/^0+/, '');
  const asked = seller.trim() === '' ? sorted : sorted.filter(({ sellerNo }) => String(sellerNo) === whose);
  if (asked.length > 0) return accept(asked);
  if (seller.trim() === '') return refuse('unknown', 'No lot has been checked in yet.');
  return refuse('unknown', `Seller number ${seller.trim()} has no lots in this sale: check the number.`, 'seller');
}

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
  readonly code: string;
}

/** Where the association has no caution of its own for the goods; its sources stand in docs/cautions.md. */
const GLOVES = 'Wear waterproof gloves; wash hands and tools afterwards.';
const MARKS = { put_up: '', green: 'GREEN', carcass: 'CARCASS' } as const;

export function ticketOf(lot: PaperLot, { saleId, sale }: Pick<PaperContext, 'saleId' | 'sale'>): Ticket {
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
    sale: `${clean(sale.name)} · ${longDate(sale.heldOn)}`,
    code: ticketText(saleId, lot.lotNo),
  };
}

function headed(head: string, words: string): string {
  return words === '' || words === 'without reserve' ? words : `${head} ${words}`;
}

import 'server-only';
import type { Paper } from '#app/papers/kinds.ts';
import { staffBook } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { problem } from '#app/server/problem.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { paperGround, paperLots } from '#db/lot/papers.ts';
import { buyersOf } from '#db/outcome/block-view.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { sellerFiles } from '#db/settlement/sheets.ts';
import { bidSheet, blockSheet } from '#lib/paper/block-papers.ts';
import type { PaperContext, PaperLot } from '#lib/paper/facts.ts';
import { alignmentPage, labelPages, ticketPages } from '#lib/paper/labels.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { receipt } from '#lib/paper/receipt.ts';
import { officerList, resultsSheet, saleList } from '#lib/paper/sale-papers.ts';
import { lotsAskedFor, readTicketRequest, type TicketRequest, ticketOf } from '#lib/paper/tickets.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { answerPapers } from './answer.ts';

/** What a paper of one sale is made from. */
interface PaperScene {
  readonly book: Book;
  readonly sale: SaleRow;
  readonly ground: PaperContext;
  /** All lots of the sale, in running order. */
  readonly lots: readonly PaperLot[];
  /** A word of the address, or null. */
  readonly word: (name: string) => string | null;
}

/** The sale that the address names with its lots as they stand now; a problem where there is no such sale. */
async function paperScene(request: Request): Promise<Result<PaperScene>> {
  const allowed = await staffBook();
  if (!allowed.ok) return allowed;
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const sale = saleOfAddress(book, words.get('sale') ?? undefined);
  if (!sale) return refuse('unknown', 'There is no such sale in the book.', 'sale');
  const ground = paperGround(book, sale, today(book));
  const word = (name: string) => words.get(name);
  return { ok: true, value: { book, sale, ground, lots: paperLots(book, sale), word } };
}

interface Lists {
  /** The start of the file's name; the sale is put behind it. */
  readonly name: string;
  readonly none: string;
  readonly make: (scene: PaperScene) => readonly ListPaper[];
}

/** Answers a route whose papers are lists. */
async function answerLists(request: Request, { name, none, make }: Lists): Promise<Response> {
  const scene = await paperScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale } = scene.value;
  return answerPapers({ book, papers: make(scene.value), name: `${name}-${sale.id}`, none });
}

/** The lots of a sale in running order: `?sale=1`. */
export function saleListPaper(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'sale-list',
    none: 'There is no lot to list yet.',
    make: ({ ground, lots }) => (lots.length === 0 ? [] : [saleList(ground, lots)]),
  });
}

/** What the lots brought, to pin on the wall: `?sale=1`. */
export function resultsPaper(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'results',
    none: 'No lot has been called yet.',
    make: ({ ground, lots }) => (lots.some(({ outcome }) => outcome !== null) ? [resultsSheet(ground, lots)] : []),
  });
}

/** The lots still to be called with room to write, for a power failure: `?sale=1`. */
export function blockSheetPaper(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'block-sheet',
    none: 'No lot is left to be called.',
    make: ({ ground, lots }) => (lots.some(({ outcome }) => outcome === null) ? [blockSheet(ground, lots)] : []),
  });
}

/**
 * Bid sheets of a written sale: `?sale=1` one for every buyer number, `&buyer=10` one buyer's, `&buyer=blank` one on
 * which the buyer writes the number.
 */
export function bidSheetsPaper(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'bid-sheets',
    none: 'There is no such buyer number, or no lot open for bids: register the buyer at the Till, or print a blank sheet.',
    make: (scene) => {
      if (scene.sale.bidding !== 'sealed' || scene.lots.every(({ outcome }) => outcome !== null)) return [];
      return whose(scene).map((buyer) => bidSheet(scene.ground, scene.lots, buyer));
    },
  });
}

function whose({ book, sale, word }: PaperScene) {
  const named = word('buyer');
  if (named === 'blank') return [null];
  const buyers = buyersOf(book, sale.id);
  return named === null ? buyers : buyers.filter(({ buyerNo }) => String(buyerNo) === named);
}

/** The tagged lots of a sale and what holds lots back, for the agency officer's table: `?sale=1`. */
export function tagListPaper(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'tag-list',
    none: 'There is no such list.',
    make: ({ book, sale, ground, lots }) => [officerList(ground, lots, sellerFiles(book, sale.id))],
  });
}

/** The receipt of one seller number's goods: `?sale=1&seller=3`. */
export function receiptOfGoodsPaper(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'receipt',
    none: 'There is no such seller number in this sale.',
    make: ({ book, sale, ground, lots, word }) =>
      sellerFiles(book, sale.id)
        .filter(({ seller }) => String(seller.sellerNo) === word('seller'))
        .map((file) =>
          receipt(
            ground,
            file,
            lots.filter(({ sellerNo }) => sellerNo === file.seller.sellerNo),
          ),
        ),
  });
}

/**
 * Lot tickets: `?sale=1` of all lots, `&seller=3` of one seller number, `&lot=12A` of one lot. `&stock=labels` on label
 * sheets beginning at label `&start=5`, moved by `&right=1.5` and `&down=-0.8` millimetres; `&stock=halves` two a page;
 * `&stock=alignment` the page that aligns a printer.
 */
export async function ticketsPaper(request: Request): Promise<Response> {
  const scene = await paperScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale, word } = scene.value;
  const typed = (name: string) => word(name) ?? '';
  const asked = readTicketRequest({
    ...{ stock: typed('stock'), start: typed('start'), right: typed('right'), down: typed('down') },
  });
  if (!asked.ok) return problem(asked);
  const papers = papersOf(scene.value, asked.value);
  if (!papers.ok) return problem(papers);
  return answerPapers({ book, papers: papers.value, name: `tickets-${sale.id}`, none: 'There is no lot.' });
}

function papersOf(scene: PaperScene, { stock, start, offset }: TicketRequest): Result<Paper[]> {
  const { ground, sale, word } = scene;
  if (stock === 'alignment') return accept([alignmentPage(ground, offset)]);
  const lots = lotsAskedFor(scene.lots, { saleId: sale.id, seller: word('seller') ?? '', lot: word('lot') ?? '' });
  if (!lots.ok) return lots;
  const tickets = lots.value.map((lot) => ticketOf(lot, ground));
  return accept(stock === 'halves' ? ticketPages(tickets, ground) : labelPages(tickets, ground, { start, offset }));
}

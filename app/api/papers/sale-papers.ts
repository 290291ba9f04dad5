import 'server-only';
import type { Paper } from '#app/papers/kinds.ts';
import { type Route, type SaleRequest, saleRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { problem } from '#app/server/responses.ts';
import { CONTACT_STATIONS, type Station } from '#db/book/command.ts';
import { orWhatBecame } from '#db/lot/former.ts';
import { paperGround, paperLots } from '#db/lot/papers.ts';
import { leftView } from '#db/outcome/bids.ts';
import { buyersOf } from '#db/outcome/block-view.ts';
import { sellerCode } from '#db/outcome/board-view.ts';
import { writtenPhase, writtenView } from '#db/outcome/written-view.ts';
import { sellerFiles } from '#db/settlement/sheets.ts';
import { bidSheet, bidSlip, blockSheet } from '#lib/paper/block-papers.ts';
import type { PaperContext, PaperLot } from '#lib/paper/facts.ts';
import { alignmentPage, labelPages, ticketPages } from '#lib/paper/labels.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { receipt } from '#lib/paper/receipt.ts';
import { officerList, resultsSheet, saleList } from '#lib/paper/sale-papers.ts';
import { lotsAskedFor, readTicketRequest, type TicketRequest, ticketOf } from '#lib/paper/tickets.ts';
import { accept, type Result } from '#lib/result/result.ts';
import { answerPapers } from './answer.ts';

interface PaperRequest extends SaleRequest {
  readonly context: PaperContext;
  /** All lots of the sale as they stand now, in running order. */
  readonly lots: readonly PaperLot[];
}

/** A paper of the sale that the address names; for these stations, or for every worker where none are named. */
function paperRoute(
  answer: (asked: PaperRequest) => Response | Promise<Response>,
  stations?: readonly Station[],
): Route {
  return saleRoute(stations, (asked) => {
    const { book, sale } = asked;
    const phase = sale.bidding === 'sealed' && { phase: writtenPhase(book, sale, new Date().toISOString()).says };
    const context = { ...paperGround(book, sale, today(book)), ...phase };
    return answer({ ...asked, context, lots: paperLots(book, sale) });
  });
}

type Make = (asked: PaperRequest) => readonly ListPaper[];

/** A route whose papers are lists. `name` begins the file's name, and `none` is said where there is nothing to print. */
function listRoute(name: string, none: string, make: Make, stations?: readonly Station[]): Route {
  return paperRoute(
    (asked) => answerPapers({ book: asked.book, papers: make(asked), name: `${name}-${asked.sale.id}`, none }),
    stations,
  );
}

/** The lots of a sale in running order: `?sale=1`. */
export const saleListPaper = listRoute('sale-list', 'There is no lot to list yet.', ({ context, lots }) =>
  lots.length === 0 ? [] : [saleList(context, lots)],
);

/** What the lots brought, to pin on the wall: `?sale=1`. */
export const resultsPaper = listRoute('results', 'No lot has been called yet.', ({ context, lots }) =>
  lots.some(({ outcome }) => outcome !== null) ? [resultsSheet(context, lots)] : [],
);

/** The lots still to be called with room to write, for a power failure: `?sale=1`. */
export const blockSheetPaper = listRoute('block-sheet', 'No lot is left to be called.', ({ context, lots }) =>
  lots.some(({ outcome }) => outcome === null) ? [blockSheet(context, lots)] : [],
);

/**
 * Bid sheets of a written sale: `?sale=1` one for every buyer number, `&buyer=10` one buyer's, `&buyer=blank` one on
 * which the buyer writes the number.
 */
export const bidSheetsPaper = listRoute(
  'bid-sheets',
  'There is no such buyer number, or no lot open for bids: register the buyer at the Till, or print a blank sheet.',
  (asked) => {
    if (asked.sale.bidding !== 'sealed' || asked.lots.every(({ outcome }) => outcome !== null)) return [];
    return whose(asked).map((buyer) => bidSheet(asked.context, asked.lots, buyer));
  },
);

/** What became of each bidder's written or left bids: `?sale=1`, `&buyer=10` one of them. */
export const bidSlipsPaper = listRoute(
  'bid-slips',
  'No lot with a written or left bid has an outcome yet.',
  (asked) => {
    const ended = endedOf(asked);
    return whose(asked).flatMap((buyer) => {
      const own = ended.filter(({ buyerNo }) => buyerNo === buyer?.buyerNo);
      return buyer === null || own.length === 0 ? [] : [bidSlip(asked.context, own, buyer)];
    });
  },
);

function endedOf({ book, sale }: PaperRequest) {
  if (sale.bidding === 'sealed') return writtenView(book, sale, new Date().toISOString()).ended;
  return leftView(book, sale).called.map(({ became: end, ...bid }) => ({ ...bid, end }));
}

function whose({ book, sale, word }: PaperRequest) {
  const named = word('buyer');
  if (named === 'blank') return [null];
  const buyers = buyersOf(book, sale.id);
  return named === undefined ? buyers : buyers.filter(({ buyerNo }) => String(buyerNo) === named);
}

/** The tagged lots of a sale and what holds lots back, for the agency officer's table: `?sale=1`. */
export const tagListPaper = listRoute(
  'tag-list',
  'There is no such list.',
  ({ book, sale, context, lots }) => [officerList(context, lots, sellerFiles(book, sale.id))],
  CONTACT_STATIONS,
);

/** The receipt of one seller number's goods: `?sale=1&seller=3`. */
export const receiptOfGoodsPaper = listRoute(
  'receipt',
  'There is no such seller number in this sale.',
  ({ book, sale, context, lots, word }) =>
    sellerFiles(book, sale.id)
      .filter(({ seller }) => String(seller.sellerNo) === word('seller'))
      .map((file) => {
        const own = lots.filter(({ sellerNo }) => sellerNo === file.seller.sellerNo);
        return receipt(context, file, { lots: own, code: sellerCode(book, sale.id, file.seller.sellerNo) });
      }),
  CONTACT_STATIONS,
);

/**
 * Lot tickets: `?sale=1` of all lots, `&seller=3` of one seller number, `&lot=12A` of one lot. `&stock=labels` on label
 * sheets beginning at label `&start=5`, moved by `&right=1.5` and `&down=-0.8` millimetres; `&stock=halves` two a page;
 * `&stock=alignment` the page that aligns a printer.
 */
export const ticketsPaper = paperRoute((asked) => {
  const { book, sale, word } = asked;
  const typed = (name: string) => word(name) ?? '';
  const read = readTicketRequest({
    ...{ stock: typed('stock'), start: typed('start'), right: typed('right'), down: typed('down') },
  });
  const papers = read.ok ? papersOf(asked, read.value) : read;
  if (!papers.ok) return problem(papers);
  return answerPapers({ book, papers: papers.value, name: `tickets-${sale.id}`, none: 'There is no lot.' });
});

function papersOf(asked: PaperRequest, { stock, start, offset }: TicketRequest): Result<Paper[]> {
  const { context, sale, word } = asked;
  if (stock === 'alignment') return accept([alignmentPage(context, offset)]);
  const lot = word('lot') ?? '';
  const lots = lotsAskedFor(asked.lots, { saleId: sale.id, seller: word('seller') ?? '', lot });
  if (!lots.ok) return orWhatBecame(asked.book, sale.id, { lot, refusal: lots });
  const tickets = lots.value.map((lot) => ticketOf(lot, context));
  return accept(stock === 'halves' ? ticketPages(tickets, context) : labelPages(tickets, context, { start, offset }));
}

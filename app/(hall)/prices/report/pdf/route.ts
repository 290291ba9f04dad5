import { pricesContext } from '#app/(hall)/prices/prices-context.ts';
import { renderSheets } from '#app/papers/render.ts';
import { today } from '#app/request/page-context.ts';
import { notFoundProblem } from '#app/server/responses.ts';
import type { Book } from '#db/book/open.ts';
import { paperGround } from '#db/lot/papers.ts';
import type { SeasonPrices } from '#db/price/season-prices.ts';
import { allSales, theAssociation } from '#db/sale/queries.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { priceReport } from '#lib/price/report.ts';

interface Drawn {
  /** Everything that was drawn but the log line it was drawn at: what is on it still stands so at a later line. */
  readonly of: string;
  readonly bytes: Promise<Uint8Array>;
}

/** The newest drawing of each season, for as long as nothing on it changes: anybody may ask, and drawing takes time. */
const DRAWN = new Map<string, Drawn>();

/** The price report as a PDF: `?season=2025-26`, or the newest season. */
export async function GET(request: Request): Promise<Response> {
  const { book, seasons } = await pricesContext();
  const named = new URL(request.url).searchParams.get('season');
  const at = named === null ? 0 : seasons.findIndex(({ season }) => season === named);
  const season = seasons[at];
  const paper = season && paperOf(book, season, seasons[at + 1] ?? null);
  if (!season || !paper) return notFoundProblem('There is no sale of this season in the book.');
  const size = theAssociation(book)?.paper === 'a4' ? 'a4' : 'letter';
  const bytes = await drawn(season.season, paper, size);
  const name = `prices-${season.season.replace(/[^\w-]+/g, '-')}.pdf`;
  const headers = { 'content-type': 'application/pdf', 'content-disposition': `inline; filename="${name}"` };
  return new Response(new Uint8Array(bytes), { headers });
}

/** Two who ask at once wait for the same drawing; one that failed is not cached. */
function drawn(season: string, paper: ListPaper, size: 'a4' | 'letter'): Promise<Uint8Array> {
  const { head: _head, issuedWords: _line, ...said } = paper;
  const of = JSON.stringify([size, said]);
  const cached = DRAWN.get(season);
  if (cached?.of === of) return cached.bytes;
  const bytes = renderSheets([paper], { size });
  DRAWN.set(season, { of, bytes });
  bytes.catch(() => DRAWN.get(season)?.bytes === bytes && DRAWN.delete(season));
  return bytes;
}

function paperOf(book: Book, season: SeasonPrices, before: SeasonPrices | null): ListPaper | undefined {
  const sale = allSales(book).find((row) => row.season === season.season && row.stage !== 'planned');
  return sale && priceReport(paperGround(book, sale, today(book)), season, before);
}

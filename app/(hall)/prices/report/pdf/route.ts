import { renderSheets } from '#app/papers/render.ts';
import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import type { Book } from '#db/open.ts';
import { paperGround } from '#db/queries/paper-lots.ts';
import { allSales, theAssociation } from '#db/queries/sales.ts';
import type { SeasonPrices } from '#db/queries/season-prices.ts';
import { priceReport } from '#lib/price-report.ts';
import { refuse } from '#lib/result.ts';
import { pricesGround } from '../../ground.ts';

/** Drawn once for as long as the season stays as it is: anybody may ask, and drawing takes a worker's time. */
const DRAWN = {
  a4: new WeakMap<SeasonPrices, Promise<Uint8Array>>(),
  letter: new WeakMap<SeasonPrices, Promise<Uint8Array>>(),
};

/** The price report as a PDF: `?season=2025-26`, or the newest season. */
export async function GET(request: Request): Promise<Response> {
  const { book, seasons } = await pricesGround();
  const named = new URL(request.url).searchParams.get('season');
  const at = named === null ? 0 : seasons.findIndex(({ season }) => season === named);
  const season = seasons[at];
  const paper = season && paperOf(book, season, seasons[at + 1] ?? null);
  if (!season || !paper) return problem(refuse('unknown', 'There is no sale of this season in the book.'), 404);
  const size = theAssociation(book)?.paper === 'a4' ? 'a4' : 'letter';
  const drawn = DRAWN[size];
  const bytes = drawn.get(season) ?? renderSheets([paper], { size });
  drawn.set(season, bytes);
  const name = `prices-${season.season.replace(/[^\w-]+/g, '-')}.pdf`;
  const headers = { 'content-type': 'application/pdf', 'content-disposition': `inline; filename="${name}"` };
  return bytes.then(
    (whole) => new Response(new Uint8Array(whole), { headers }),
    (fault) => {
      drawn.delete(season);
      throw fault;
    },
  );
}

function paperOf(book: Book, season: SeasonPrices, before: SeasonPrices | null) {
  const sale = allSales(book).find((row) => row.season === season.season && row.stage !== 'planned');
  return sale && priceReport(paperGround(book, sale, today()), season, before);
}

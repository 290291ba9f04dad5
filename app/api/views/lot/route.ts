import { lotCard } from '#db/queries/lot-card.ts';
import { parseLotNo } from '#lib/lot-number.ts';
import { answerView } from '../sale.ts';

/** One lot of a sale by its number, with what was taken down for it; 404 where there is none. */
export function GET(request: Request): Promise<Response> {
  const lotNo = parseLotNo(new URL(request.url).searchParams.get('lot') ?? '');
  return answerView(request, (book, sale) => (lotNo.ok ? lotCard(book, sale, lotNo.value) : null));
}
